import { press } from './acts.ts';
import { type Button, button } from './card.ts';

/** Asks whether the entry that an answer tells of is to be undone. */
export const undoButton = (entry: number): Button => button('Undo', press('undo-ask', { entry }));
