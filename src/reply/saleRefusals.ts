import type { Refusal } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card, type Offer } from './card.ts';
import { type ClaimRefusal, claimRefusal } from './claimRefusals.ts';
import { cut } from './cut.ts';
import { type SentRefusal, sentRefusal } from './dispatchRefusals.ts';
import { counted, dateWords, listWords, momentWords, moneyWords, someWords, type Voice } from './voice.ts';

type OrderRefusal = Extract<
  Refusal,
  {
    kind:
      | 'not-counted'
      | 'not-enough'
      | 'not-enough-goods'
      | 'too-few-goods'
      | 'unknown-items'
      | 'sale-state'
      | 'ask-paid-already'
      | 'no-good-day'
      | 'same-day'
      | 'nothing-paid';
  }
>;

export type SaleRefusal = OrderRefusal | SentRefusal | ClaimRefusal;

/** The words of refusals about sales, goods, parcels and claims. */
export function saleRefusal(voice: Voice, refusal: SaleRefusal): Card {
  switch (refusal.kind) {
    case 'not-counted':
      return {
        title: `Not logged: ${refusal.line} is not counted yet`,
        why: [
          refusal.tubs.length === 0 ? `No tub holds ${refusal.line}` : `Not counted: ${someWords(refusal.tubs, 6)}`,
        ],
        next: refusal.tubs.length === 0 ? 'Add a tub with /tub add' : `Count ${refusal.tubs[0]} with /count log`,
      };
    case 'not-enough': {
      const { what, asked, extras, free, fits, fitsExtras } = refusal;
      return {
        title: `Not logged: ${Math.max(0, free)} ${what} free to promise`,
        why: [
          `Asked: ${asked}${extras > 0 ? ` + ${counted(extras, 'extra')}` : ''}`,
          fits > 0
            ? `${fits} + ${counted(fitsExtras, 'extra')} would fit`
            : 'The rest are breeders, promised or off sale',
          ...stillThere(refusal.sale),
        ],
        next: 'Offer fewer, or count again if there are more',
        offers: fittingOffer(refusal),
      };
    }
    case 'not-enough-goods':
      return {
        title: `Not logged: ${Math.max(0, refusal.free)} ${refusal.what} left`,
        why: [`Asked: ${refusal.asked}`, ...stillThere(refusal.sale)],
        next: 'Offer fewer, or add stock with /goods',
        offers: fittingOffer(refusal),
      };
    case 'too-few-goods':
      return {
        title: `Not logged: ${refusal.there} ${refusal.what} there`,
        why: [`${refusal.out} can't go out of ${refusal.there}`],
        next: 'Count them, and take out what is missing',
      };
    case 'unknown-items':
      return {
        title: 'Not logged: not all items understood',
        why: [
          ...(refusal.understood.length > 0 ? [`Understood: ${listWords(refusal.understood)}`] : []),
          ...refusal.unknown.slice(0, 3).map(pieceLine),
        ],
        next: 'Write it like "20 jade, 10 snow + 2 moss"',
        ...(refusal.mended !== null && {
          offers: [{ label: cut(`Take ${refusal.mended}`), patch: { items: refusal.mended }, tone: 'main' as const }],
        }),
      };
    case 'sale-state':
      if (refusal.state === 'kept' || refusal.state === 'lapsed' || refusal.state === 'paid') {
        return {
          title: `Not logged: sale ${refusal.sale} is not sent yet`,
          next: 'Mark it as sent once it has left',
          controls: [[button('Sent', press('parcel-sent', { sale: refusal.sale })), saleButton(refusal.sale)]],
        };
      }
      return {
        title: `Sale ${refusal.sale} ${refusal.state === 'arrived' ? 'has' : 'is'} already ${refusal.state}`,
        why: [
          ...(refusal.at !== null
            ? [`${refusal.by === null ? 'Since' : `By ${refusal.by},`} ${momentWords(voice, refusal.at)}`]
            : []),
          refusal.state === refusal.wanted ? 'Nothing was logged' : `It can't be ${refusal.wanted} now`,
        ],
        controls: [[saleButton(refusal.sale)]],
      };
    case 'ask-paid-already':
      return {
        title: `Sale ${refusal.sale} was already paid${(refusal.openMinor ?? 0) > 0 ? ' in part' : ''}`,
        why: [
          `logged by ${refusal.by} ${momentWords(voice, refusal.at)}`,
          ...(refusal.openMinor !== null && refusal.openMinor > 0
            ? [`${moneyWords(voice, refusal.openMinor)} are still open`]
            : []),
          'Not logged yet',
        ],
        offers: [
          {
            label:
              refusal.openMinor !== null && refusal.openMinor > 0
                ? `Paid the ${moneyWords(voice, refusal.openMinor)} left`
                : 'It is a second payment',
            patch: { again: true },
          },
        ],
      };
    case 'no-good-day':
      return {
        title: `Sale ${refusal.sale}: no good day within a year`,
        why: ['Closed windows, dispatch days and holidays leave none open', 'Nothing was moved or sent'],
        next: 'Look at /season and /setup dispatch',
      };
    case 'same-day':
      return {
        title: `Sale ${refusal.sale} is already on ${dateWords(voice, refusal.day)}`,
        why: ['Nothing was logged'],
        controls: [[saleButton(refusal.sale)]],
      };
    case 'nothing-paid':
      return {
        title: `Not logged: nothing was paid for sale ${refusal.sale}`,
        why: refusal.openMinor === null ? [] : [`${moneyWords(voice, refusal.openMinor)} are open`],
        next: 'Log what came, or set the price to 0 with /sale edit',
      };
    case 'ask-sent-already':
    case 'ask-unpaid':
    case 'ask-not-safe':
    case 'ask-short':
    case 'arrived-before-sent':
      return sentRefusal(voice, refusal);
    default:
      return claimRefusal(voice, refusal);
  }
}

const saleButton = (sale: number): Button => button(`Sale ${sale}`, press('sale-show', { sale }));

const stillThere = (sale: number | null): string[] => (sale === null ? [] : [`Sale ${sale} stays as it was`]);

/** The whole order with the numbers that fit: for a new sale the same command again, for one in the books an edit of it. */
function fittingOffer(refusal: { readonly sale: number | null; readonly mended: string | null }): Offer[] {
  const { sale, mended } = refusal;
  if (mended === null) return [];
  const offer = { label: cut(`Take ${mended}`), tone: 'main' as const };
  return sale === null
    ? [{ ...offer, patch: { items: mended } }]
    : [{ ...offer, path: 'sale edit', patch: { sale: String(sale), items: mended } }];
}

type UnknownPiece = Extract<Refusal, { kind: 'unknown-items' }>['unknown'][number];

/** What is wrong with one piece of an order. */
function pieceLine({ typed, near, why }: UnknownPiece): string {
  const piece = `"${cut(typed)}"`;
  switch (why) {
    case 'bad-number':
      return `${piece}: whole numbers from 1 up`;
    case 'no-number':
      return `${piece}: how many?`;
    case 'no-name':
      return `${piece}: of what?`;
    case 'no-such-name':
      return `Not: ${piece}${near.length > 0 ? `, near ${listWords(near, 'or')}` : ''}`;
  }
}
