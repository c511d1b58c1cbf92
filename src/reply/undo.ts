import type { Entry } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { momentWords, type Voice } from './voice.ts';

export const undoAskCard = (voice: Voice, entry: Entry): Card => ({
  title: 'Undo this?',
  why: [
    entry.summary,
    `logged by ${entry.who.name} ${momentWords(voice, entry.loggedAt)}`,
    'It is kept as undone, not deleted',
  ],
  controls: [
    [button('Undo it', press('undo-now', { entry: entry.id }), 'danger'), button('Leave it', press('leave-it', {}))],
  ],
});

/** What was undone, as far as a notification shows it. */
const inTitle = (summary: string): string => `Undone: ${summary.length > 36 ? `${summary.slice(0, 35)}…` : summary}`;

export const undoneCard = (voice: Voice, by: string, entry: Entry): Card => ({
  title: inTitle(entry.summary),
  why: [
    ...(inTitle(entry.summary).endsWith('…') ? [entry.summary] : []),
    `was logged by ${entry.who.name} ${momentWords(voice, entry.loggedAt)}`,
    `undone by ${by} ${momentWords(voice, voice.now)}`,
  ],
});
