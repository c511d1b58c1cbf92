import { button, type Card, press } from '../reply/index.ts';

const home = [[button('Home', press('home', {}))]];

/** What the boundary itself has to say, always to the asker alone. */
export const notices = {
  stranger: (): Card => ({
    title: 'This bot answers the partners only',
    why: ['You are not one of the partners of this business'],
    next: 'Ask an owner for /setup partner',
  }),
  notStarted: (): Card => ({
    title: 'No partner is set yet',
    why: ['Until the first one is, only a member who may manage the server can use this bot'],
    next: 'Ask one of them for /setup partner',
  }),
  otherGuild: (): Card => ({
    title: 'This bot works in another server',
    why: ['It keeps the books of one business, and answers only where that business is at home'],
  }),
  otherChannel: (): Card => ({
    title: 'Not here: this bot works in one channel',
    why: ['So that the other partner sees what was logged'],
    next: "Ask in the bot's own channel",
  }),
  ownerOnly: (path: string): Card => ({
    title: `/${path} is for the owner`,
    why: ['That is a partner marked as owner, or a member who may manage the server', 'Nothing was changed'],
  }),
  unknownCommand: (): Card => ({
    title: 'This command is gone',
    why: ['The bot was changed since your app loaded its menu', 'Nothing was saved'],
    next: 'Close and open the chat app, then type / again',
  }),
  staleControl: (): Card => ({
    title: 'This button is out of date',
    why: ['It belongs to an older message and no longer does anything', 'Nothing was saved'],
    next: 'Start from here',
    controls: home,
  }),
  loggedAlready: (summary: string): Card => ({ title: 'Already logged', why: [summary] }),
  broken: (reference: string, saved: string | undefined): Card =>
    saved === undefined
      ? { title: `Something broke on my side (ref ${reference}). Nothing was saved.` }
      : {
          title: `Something broke on my side (ref ${reference})`,
          why: [`It was saved before that: ${saved}`],
          next: 'Check it with /undo, which lists the last entries',
        },
};
