import { dayOf, type Entry } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card, type Select } from './card.ts';
import { cut } from './cut.ts';
import { counted, dayWords, momentWords, type Voice } from './voice.ts';

export const undoAskCard = (voice: Voice, entry: Entry, others: readonly Entry[] = []): Card => ({
  title: 'Undo this?',
  why: [
    entry.summary,
    `logged by ${entry.who.name} ${momentWords(voice, entry.loggedAt)}`,
    'It is kept as undone, not deleted',
  ],
  controls: [
    [button('Undo it', press('undo-now', { entry: entry.id }), 'danger'), button('Leave it', press('leave-it', {}))],
    ...(others.length === 0 ? [] : [entryRow(voice, others)]),
  ],
});

/** The service takes 25 choices. */
const mostChoices = 25;
/** What a phone shows of a choice. */
const mostLabel = 50;
/** Entries named on a card. */
const mostNamed = 4;

/** "A1 changed 5 L, yesterday": the day stays where the summary is too long. */
function withDay(summary: string, day: string): string {
  const most = mostLabel - day.length - 2;
  return `${summary.length > most ? `${summary.slice(0, most - 1)}…` : summary}, ${day}`;
}

/** A list of entries, newest first, to ask about undoing one. */
export const entryRow = (voice: Voice, entries: readonly Entry[]): readonly [Select] => [
  {
    kind: 'select',
    placeholder: 'Another entry',
    press: press('undo-pick', {}),
    options: entries.slice(0, mostChoices).map(({ id, summary, who, loggedAt }) => ({
      label: withDay(summary, dayWords(voice, dayOf(loggedAt, voice.zone))),
      value: String(id),
      description: `${who.name}, ${momentWords(voice, loggedAt)}`,
    })),
  },
];

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

/** What became of undoing all that one press had logged. */
export function undoneTogetherCard(
  voice: Voice,
  by: string,
  { undone, left }: { readonly undone: readonly Entry[]; readonly left: readonly Entry[] },
): Card {
  const some = (entries: readonly Entry[]): string[] => {
    const more = entries.length > mostNamed ? [`and ${entries.length - mostNamed} more`] : [];
    return [...entries.slice(0, mostNamed).map(({ summary }) => cut(summary)), ...more];
  };
  return {
    title: undone.length === 0 ? 'Nothing left to undo there' : `${counted(undone.length, 'entry', 'entries')} undone`,
    why: [
      ...some(undone),
      ...left.slice(0, mostNamed).map(({ summary }) => `Kept, later entries rest on it: ${cut(summary)}`),
      ...(undone.length === 0 ? [] : [`undone by ${by} ${momentWords(voice, voice.now)}`]),
    ],
    controls: [[button('Rota', press('rota-today', {}), 'main')]],
  };
}
