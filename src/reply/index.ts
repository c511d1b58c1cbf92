export * from './acts.ts';
export * from './card.ts';
export * from './change.ts';
export * from './reading.ts';
export * from './refusals.ts';
export * from './voice.ts';
