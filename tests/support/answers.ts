import type { Button, Card } from '../../src/reply/index.ts';

interface Answered {
  readonly card?: Card;
}

/** The buttons under an answer, in order. */
export const buttonsOf = ({ card }: Answered): Button[] =>
  (card?.controls ?? []).flat().flatMap((control) => (control.kind === 'button' ? [control] : []));

/** The labels of an answer's buttons, in order. */
export const labelsOf = (answer: Answered): string[] => buttonsOf(answer).map(({ label }) => label);

/** All the words of an answer's card, a line each: title, why, table, next. */
export function linesOf({ card }: Answered): string[] {
  if (card === undefined) throw new Error('an answer without a card');
  return [card.title, ...(card.why ?? []), ...(card.table ?? []), ...(card.next === undefined ? [] : [card.next])];
}

/** The same as one text, in which the next step is told from the rest; empty without a card. */
export function wordsOf(answer: Answered): string {
  if (answer.card === undefined) return '';
  const { next } = answer.card;
  const lines = linesOf(answer);
  return (next === undefined ? lines : [...lines.slice(0, -1), `Next: ${next}`]).join('\n');
}
