import type { MoneyFault } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { cut } from './cut.ts';
import { counted, dateWords, listWords, momentWords, moneyWords, type Voice } from './voice.ts';

/** The words of refusals about money, exports and forgetting. */
export function moneyRefusal(voice: Voice, refusal: MoneyFault): Card {
  switch (refusal.kind) {
    case 'ask-cost-twice':
      return {
        title: `${moneyWords(voice, refusal.amountMinor)} was already logged for that day`,
        why: [
          `${cut(refusal.what)}, logged by ${refusal.by} ${momentWords(voice, refusal.at)}`,
          'The same amount and kind; one receipt may have been logged twice',
          'Not logged yet',
        ],
        offers: [{ label: 'It is another one', patch: { again: true } }],
      };
    case 'bad-span':
      return {
        title: 'Not exported: the days go backwards',
        why: [`From ${dateWords(voice, refusal.from)} to ${dateWords(voice, refusal.to)}`],
        next: 'Give the earlier day as from',
      };
    case 'buyer-open': {
      const { buyer, sales, claims } = refusal;
      return {
        title: `Not forgotten: ${cut(buyer)} is still waiting`,
        why: [
          ...(sales.length > 0 ? [`${counted(sales.length, 'sale')} not sent: ${listWords(sales.map(String))}`] : []),
          ...(claims.length > 0 ? [`Claim not answered: sale ${listWords(claims.map(String))}`] : []),
        ],
        next: sales.length > 0 ? 'Send or cancel them first' : 'Answer it first',
        controls: [
          [...new Set([...sales, ...claims])]
            .slice(0, 5)
            .map((sale) => button(`Sale ${sale}`, press('sale-show', { sale }))),
        ],
      };
    }
    case 'cannot-undo':
      return {
        title: 'Not undone: what was erased is gone',
        why: [refusal.summary],
        next: 'Choose another entry from the list under /undo',
      };
  }
}
