import type { Sale, Settlement } from '../domain/index.ts';
import type { Card } from './card.ts';
import { counted, dateWords, moneyWords, type Voice } from './voice.ts';

/** What a text to the buyer is about; the bot drafts it, people send it. */
export interface BuyerTextFacts {
  readonly sale: Sale;
  readonly dead: number;
  readonly ordered: number;
  readonly alive: number;
  /** The sale that resends what was short; null: none. */
  readonly resend: Sale | null;
}

/** A text to copy for the buyer about how a parcel arrived and what is done about it. */
export function buyerTextCard(voice: Voice, facts: BuyerTextFacts): Card {
  const { sale } = facts;
  return {
    title: `Text for the buyer of sale ${sale.id}, to copy`,
    why: [sale.buyer === null ? 'Hello,' : `Hello ${sale.buyer},`, ...bodyLines(voice, facts)],
    next: 'Copy it, change it as you like, and send it yourself',
  };
}

function bodyLines(voice: Voice, facts: BuyerTextFacts): string[] {
  const { sale, dead, ordered, alive } = facts;
  const thanks = `thank you for telling us how your shrimp arrived. We are sorry about the ${dead} that did not make it.`;
  const kept = alive >= ordered;
  const sent = kept
    ? `We had packed extras for this: with ${alive} alive you have the ${ordered} you ordered.`
    : `${counted(alive, 'animal')} of the ${ordered} you ordered arrived alive.`;
  const settled = sale.claim?.settled ?? null;
  return [thanks, sent, settled === null ? openLine(kept) : settledLine(voice, settled, facts), careLine];
}

const openLine = (kept: boolean): string =>
  kept
    ? 'Let us know if any of them look weak tomorrow.'
    : 'Would you rather have the money for them or have them sent again?';

function settledLine(
  voice: Voice,
  settled: { readonly how: Settlement; readonly amountMinor: number },
  { resend }: BuyerTextFacts,
): string {
  if (settled.how === 'refund') return `We are paying back ${moneyWords(voice, settled.amountMinor)}.`;
  if (settled.how === 'decline')
    return 'By our terms we cannot make this good; your statutory rights are not touched by that.';
  const day = resend?.dispatchOn ?? null;
  return `We will send them again${day === null ? '' : `, leaving here on ${dateWords(voice, day)}`}, at no cost to you.`;
}

const careLine = 'Please let them settle in dim light, with the water matched slowly.';
