import { type CostKind, type CostLogged, costKinds, dayOf, monthOf } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card, type Form } from './card.ts';
import { whenLine } from './change.ts';
import { monthWords } from './moneyWords.ts';
import { undoButton } from './undoButton.ts';
import { listWords, moneyWords, type Voice } from './voice.ts';

/** "Feed", "Packing". */
export const kindWords = (kind: CostKind): string => `${kind.charAt(0).toUpperCase()}${kind.slice(1)}`;

/** Characters of what a cost was for that fit the first line. */
const inTitle = 24;

/** A cost that was logged: whose it is, and what its kind comes to in its month. */
export function costCard(voice: Voice, by: string, { cost, kindInMonthMinor, entryId }: CostLogged): Card {
  const { amountMinor, what, kind, tub, at } = cost;
  const shown = what.length > inTitle ? `${what.slice(0, inTitle - 1)}…` : what;
  const month = monthOf(dayOf(at, voice.zone));
  return {
    title: `Spent ${moneyWords(voice, amountMinor)}: ${shown}`,
    why: [
      ...(shown === what ? [] : [what]),
      tub === null
        ? `${kindWords(kind)}, shared by all lines`
        : `${kindWords(kind)}, for ${tub.name}: ${tub.lineName} bears it`,
      `${kindWords(kind)} in ${monthWords(voice, month)}: ${moneyWords(voice, kindInMonthMinor)}`,
      whenLine(voice, by, at),
    ],
    controls: [[moneyButton(month.first.slice(0, 7), 'Money', true), undoButton(entryId)]],
  };
}

/** Opens a month ("2026-10") or a year ("2026") of the books. */
export const moneyButton = (month: string, label: string, likely = false): Button =>
  button(label, press('money-show', { month }), likely ? 'main' : 'plain');

export const costForm = (voice: Voice): Form => ({
  title: 'Money spent',
  press: press('cost-send', {}),
  fields: [
    { id: 'amount', label: `Amount, ${voice.currency}`, lines: 'one', required: true },
    { id: 'what', label: 'What for', hint: 'flakes, 50 bags, postage of 41', lines: 'one', required: true },
    { id: 'kind', label: 'Kind', hint: listWords(costKinds, 'or'), lines: 'one' },
    { id: 'tub', label: 'Tub, if it was for one', hint: 'A3', lines: 'one' },
    { id: 'when', label: 'When, if not today', hint: 'yesterday, 3 Nov', lines: 'one' },
  ],
});
