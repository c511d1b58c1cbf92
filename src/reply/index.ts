export * from './acts.ts';
export * from './card.ts';
