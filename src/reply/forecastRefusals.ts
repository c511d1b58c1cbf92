import type { ForecastFault } from '../domain/index.ts';
import type { Card } from './card.ts';
import { cut } from './cut.ts';
import { dateWords, figure, someWords, type Voice } from './voice.ts';

/** The words of what can't be foreseen. */
export function forecastRefusal(voice: Voice, refusal: ForecastFault): Card {
  switch (refusal.kind) {
    case 'weekly-impossible':
      return {
        title: `Not foreseen: ${figure(refusal.typed)} a week cannot be right`,
        why: [`Sales of a line go from 0 to ${refusal.most} animals a week`],
        next: 'Give the animals sold a week, extras included',
        offers: [{ label: 'Sales as now', patch: { 'weekly-sales': null } }],
      };
    case 'not-foreseen': {
      const { day, first, last } = refusal;
      const isFar = day > last;
      const nearest = isFar ? last : first;
      const why = day < voice.today ? 'is past' : isFar ? 'is too far' : 'is too near';
      return {
        title: `Not foreseen: ${dateWords(voice, day)} ${why}`,
        why: [
          isFar ? 'Two years ahead the range says nothing any more' : 'A forecast goes a week ahead and further',
          ...(isFar || day < voice.today ? [] : ['What may be promised now is under /stock']),
        ],
        next: `Give a day from ${dateWords(voice, first)} to ${dateWords(voice, last)}`,
        offers: [{ label: `Until ${dateWords(voice, nearest)}`, patch: { until: nearest } }],
      };
    }
    case 'none-on-sale':
      return {
        title: `Not foreseen: no ${cut(refusal.line).slice(0, 18)} is on sale`,
        why: [`Off sale or kept apart: ${someWords(refusal.tubs, 4)}`],
        next: 'Lift a hold with /hold, or count a tub that is on sale',
      };
  }
}
