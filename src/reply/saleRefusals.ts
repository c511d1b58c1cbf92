import type { Refusal } from '../domain/index.ts';
import type { Card } from './card.ts';
import { cut } from './cut.ts';
import { listWords, momentWords, moneyWords, someWords, type Voice } from './voice.ts';

export type SaleRefusal = Extract<
  Refusal,
  {
    kind:
      | 'not-counted'
      | 'not-enough'
      | 'not-enough-goods'
      | 'unknown-items'
      | 'sale-state'
      | 'ask-sent-already'
      | 'ask-paid-already'
      | 'ask-unpaid'
      | 'ask-not-safe'
      | 'arrived-before-sent';
  }
>;

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
          `Asked: ${asked} + ${extras} extras`,
          ...(fits > 0
            ? [`${fits} + ${fitsExtras} extras would fit`]
            : ['The rest are breeders, promised or off sale']),
        ],
        next: 'Offer fewer, or count again if there are more',
      };
    }
    case 'not-enough-goods':
      return {
        title: `Not logged: ${Math.max(0, refusal.free)} ${refusal.what} left`,
        why: [`Asked: ${refusal.asked}`],
        next: `Offer fewer, or add stock with /goods`,
      };
    case 'unknown-items':
      return {
        title: 'Not logged: not all items understood',
        why: [
          ...(refusal.understood.length > 0 ? [`Understood: ${listWords(refusal.understood)}`] : []),
          ...refusal.unknown
            .slice(0, 3)
            .map(
              ({ typed, near }) => `Not: "${cut(typed)}"${near.length > 0 ? `, near ${listWords(near, 'or')}` : ''}`,
            ),
        ],
        next: 'Write it like "20 jade, 10 snow + 2 moss"',
        ...(refusal.mended !== null && {
          offers: [{ label: cut(`Take ${refusal.mended}`), patch: { items: refusal.mended }, tone: 'main' as const }],
        }),
      };
    case 'sale-state':
      return {
        title: `Sale ${refusal.sale} is already ${refusal.state}`,
        why: [
          ...(refusal.at !== null
            ? [`${refusal.by === null ? 'Since' : `By ${refusal.by},`} ${momentWords(voice, refusal.at)}`]
            : []),
          `It can't be ${refusal.wanted} now`,
        ],
        next: `See /sale show ${refusal.sale}`,
      };
    case 'ask-sent-already':
      return {
        title: `Parcel ${refusal.sale} was already sent`,
        why: [
          `logged by ${refusal.by} ${momentWords(voice, refusal.at)}`,
          ...(refusal.tracking === null ? [] : [`Tracking ${cut(refusal.tracking)}`]),
          'Sending it again would take its animals from the tubs twice',
        ],
        offers: [{ label: 'Keep the new tracking only', patch: { again: 'tracking' } }],
      };
    case 'ask-paid-already':
      return {
        title: `Sale ${refusal.sale} was already paid`,
        why: [`logged by ${refusal.by} ${momentWords(voice, refusal.at)}`],
        offers: [{ label: 'It is a second payment', patch: { again: true } }],
      };
    case 'ask-unpaid':
      return {
        title: `Sale ${refusal.sale} is not paid`,
        why: [
          ...(refusal.priceMinor === null ? [] : [`${moneyWords(voice, refusal.priceMinor)} are open`]),
          'Not marked as sent yet',
        ],
        next: `Log the payment with /sale paid ${refusal.sale} first`,
        offers: [{ label: 'Sent unpaid all the same', patch: { unpaid: true } }],
      };
    case 'ask-not-safe':
      return {
        title: `Stop: parcel ${refusal.sale} may not go today`,
        why: [...refusal.reasons.slice(0, 3)],
        next: 'Move it to a good day',
        offers: [{ label: 'It is on its way already', patch: { anyway: true }, tone: 'danger' }],
      };
    case 'arrived-before-sent':
      return {
        title: `Not logged: sale ${refusal.sale} left later`,
        why: [`Sent ${momentWords(voice, refusal.sentAt)}, delivered ${momentWords(voice, refusal.deliveredAt)}`],
        next: 'Check the time of delivery',
      };
  }
}
