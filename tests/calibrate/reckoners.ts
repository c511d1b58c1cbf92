import {
  advanced,
  type Colony,
  type ColonyEvent,
  forecast,
  freeToPromise,
  observed,
  rangeOf,
  replay,
  saleableOf,
} from '../../src/domain/index.ts';
import type { Estimate, OpenReckoner } from './reckoner.ts';

/** The model. */
export const byModel: OpenReckoner = (tubs) => {
  const colonies = new Map<number, Colony>();
  return {
    log(nth, event) {
      const [tub, colony] = [tubs[nth], colonies.get(nth)];
      if (tub === undefined) return;
      const after =
        colony === undefined ? replay(tub, [event], null, event.day).colony : observed(colony, tub, event).colony;
      if (after !== null) colonies.set(nth, after);
    },
    figures(on, holdBack, promised) {
      if (colonies.size < tubs.length) return null;
      const now = tubs.flatMap((tub, nth) => {
        const colony = colonies.get(nth);
        return colony === undefined ? [] : [{ tub, colony: advanced(colony, tub, on) }];
      });
      now.forEach(({ colony }, nth) => {
        colonies.set(nth, colony);
      });
      const saleable = now.map(({ colony }) => saleableOf(colony));
      const total = saleable.reduce((sums, of) => sums.map((sum, member) => sum + (of[member] ?? 0)));
      const ahead = (until: typeof on, weekly: number): Estimate => {
        const days = forecast(now, on, until, weekly, { promised: 0, holdBack: 0, isOpen: () => true });
        return days.at(-1)?.saleable ?? rangeOf(total);
      };
      return {
        free: freeToPromise(saleable, holdBack, promised).free,
        tubs: saleable.map(rangeOf),
        total: rangeOf(total),
        ahead,
      };
    },
  };
};

/** What a sale, a loss or a move takes from the books or adds to them. */
function booked(event: ColonyEvent): number {
  if (event.of === 'count') return 0;
  if (event.of === 'moveIn') return event.stage === 'saleable' ? event.number : 0;
  return 'stage' in event && event.stage === 'juvenile' ? 0 : -event.number;
}

const byBooks =
  (keepsBooks: boolean): OpenReckoner =>
  (tubs) => {
    const books = new Map<number, number>();
    const sure = (number: number): Estimate => ({ low: number, median: number, high: number });
    return {
      log(nth, event) {
        const was = books.get(nth);
        if (event.of === 'count') books.set(nth, event.saleable);
        else if (was !== undefined && keepsBooks) books.set(nth, Math.max(0, was + booked(event)));
      },
      figures(_on, holdBack, promised) {
        if (books.size < tubs.length) return null;
        const numbers = tubs.map((_, nth) => books.get(nth) ?? 0);
        const sum = (of: (number: number) => number): number => numbers.reduce((all, number) => all + of(number), 0);
        return {
          free: sum((number) => Math.max(0, number - holdBack)) - promised,
          tubs: numbers.map(sure),
          total: sure(sum((number) => number)),
          ahead: null,
        };
      },
    };
  };

/** The naive ledger: the last count, less what was sold, lost or moved out since, and more what was moved in. */
export const byLedger: OpenReckoner = byBooks(true);

/** The last count alone. */
export const byLastCount: OpenReckoner = byBooks(false);
