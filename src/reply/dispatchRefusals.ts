import type { Refusal } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card, type Offer } from './card.ts';
import { cut } from './cut.ts';
import { reasonLines } from './dispatchReasons.ts';
import { dateWords, dayWords, momentWords, moneyWords, type Voice } from './voice.ts';

export type SentRefusal = Extract<
  Refusal,
  { kind: 'ask-sent-already' | 'ask-unpaid' | 'ask-not-safe' | 'ask-short' | 'arrived-before-sent' }
>;

/** The words of questions before a parcel is marked as sent or arrived. */
export function sentRefusal(voice: Voice, refusal: SentRefusal): Card {
  switch (refusal.kind) {
    case 'ask-sent-already': {
      const { newTracking, tracking } = refusal;
      const replace: Offer[] =
        newTracking === null || newTracking === tracking
          ? []
          : [{ label: 'Keep the new tracking only', patch: { again: 'tracking' }, tone: 'main' }];
      return {
        title: `Parcel ${refusal.sale} was already sent`,
        why: [
          `logged by ${refusal.by} ${momentWords(voice, refusal.at)}`,
          ...(tracking === null ? [] : [`Tracking ${cut(tracking)}`]),
          'Sending it again takes its animals from the tubs a second time',
        ],
        offers: [...replace, { label: 'It was a second parcel', patch: { again: 'parcel' }, tone: 'danger' }],
      };
    }
    case 'ask-unpaid':
      return {
        title: `Sale ${refusal.sale} is not paid`,
        why: [
          ...(refusal.priceMinor === null ? [] : [`${moneyWords(voice, refusal.priceMinor)} are open`]),
          'Not marked as sent yet',
        ],
        next: 'Log the payment first',
        controls: [[button('Paid', press('sale-paid', { sale: refusal.sale }), 'main')]],
        offers: [{ label: 'Sent unpaid all the same', patch: { unpaid: true }, tone: 'plain' }],
      };
    case 'ask-not-safe': {
      const { sale, day, reasons, next } = refusal;
      const move: Offer[] =
        next === null
          ? []
          : [
              {
                label: `Move to ${dateWords(voice, next)}`,
                path: 'sale edit',
                patch: { sale: String(sale), 'dispatch-on': next },
                tone: 'main',
              },
            ];
      return {
        title: `Stop: parcel ${sale} may not go ${dayWords(voice, day)}`,
        why: [...reasonLines(voice, reasons), 'Not marked as sent yet'],
        next: next === null ? 'Keep it here' : `Keep it until ${dateWords(voice, next)}`,
        offers: [...move, { label: 'It is on its way already', patch: { anyway: true }, tone: 'danger' }],
      };
    }
    case 'ask-short':
      return {
        title: `Parcel ${refusal.sale}: the books are short`,
        why: [
          ...refusal.short
            .slice(0, 3)
            .map(({ what, asked, there }) => `${what}: ${asked} needed, ${Math.max(0, there)} to spare`),
          'Not marked as sent yet',
        ],
        next: 'Count the tubs again, or move the sale',
        offers: [{ label: 'It has left all the same', patch: { short: true }, tone: 'danger' }],
      };
    case 'arrived-before-sent':
      return {
        title: `Not logged: sale ${refusal.sale} left later`,
        why: [`Sent ${momentWords(voice, refusal.sentAt)}, delivered ${momentWords(voice, refusal.deliveredAt)}`],
        next: 'Check the time of delivery',
      };
  }
}
