import type { Refusal } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { momentWords, moneyWords, type Voice } from './voice.ts';

export type ClaimRefusal = Extract<Refusal, { kind: 'claim-open' | 'claim-settled' | 'no-claim' | 'refund-too-large' }>;

/** The words of refusals about claims: one claim a parcel, answered once. */
export function claimRefusal(voice: Voice, refusal: ClaimRefusal): Card {
  switch (refusal.kind) {
    case 'claim-open':
      return {
        title: `Sale ${refusal.sale} has a claim already`,
        why: [
          `Over ${refusal.dead} dead, logged by ${refusal.by} ${momentWords(voice, refusal.at)}`,
          'Not answered yet',
        ],
        next: 'Answer it; if the number is wrong, undo it and open it again',
        controls: [[button('Answer the claim', press('claim-show', { sale: refusal.sale }), 'main')]],
      };
    case 'claim-settled': {
      const amount = refusal.how === 'refund' ? ` of ${moneyWords(voice, refusal.amountMinor)}` : '';
      return {
        title: `The claim on sale ${refusal.sale} is already answered`,
        why: [`${refusal.by}: ${refusal.how}${amount}, ${momentWords(voice, refusal.at)}`, 'A claim is answered once'],
        next: 'Undo that answer first, if it was wrong',
        controls: [[button(`Sale ${refusal.sale}`, press('sale-show', { sale: refusal.sale }))]],
      };
    }
    case 'no-claim':
      return {
        title: `Sale ${refusal.sale} has no claim`,
        next: `Open one with /claim open ${refusal.sale}`,
      };
    case 'refund-too-large':
      return {
        title: `Not logged: ${moneyWords(voice, refusal.amountMinor)} is more than was paid`,
        why: [`Paid for sale ${refusal.sale}: ${moneyWords(voice, refusal.paidMinor)}`],
        next: 'Give a smaller amount',
      };
  }
}
