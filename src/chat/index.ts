export type { App, ChatLog, Choice } from './app.ts';
export { type Chat, type ChatAccount, startChat } from './client.ts';
export type { Ending } from './ending.ts';
export { photoKeeper } from './keepPhoto.ts';
export type { Found, PostOptions, Published, Publisher } from './publish.ts';
