// The books add up to the last minor unit, whatever was sold, paid, charged, refunded, cancelled and spent, and however it is cut into months.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  costMovement,
  isWithin,
  type Movement,
  moneyByLine,
  moneyTotals,
  monthsIn,
  type Period,
  type Pot,
  saleMoney,
  taxYearsIn,
} from '../../../src/domain/index.ts';
import { cost, sale, zone } from './arbitrary.ts';

fc.configureGlobal({ seed: 20270413 });

const books = fc.record({ sales: fc.array(sale, { maxLength: 8 }), costs: fc.array(cost, { maxLength: 6 }) });
const allTime = { first: '2025-12-31', last: '2028-01-01' } as Period;

const kept = ({
  sales,
  costs,
}: {
  sales: readonly Parameters<typeof saleMoney>[0][];
  costs: readonly Parameters<typeof costMovement>[0][];
}) => {
  const money = sales.map((each) => saleMoney(each, zone));
  return {
    movements: [...money.flatMap(({ movements }) => movements), ...costs.map((each) => costMovement(each, zone))],
    sold: money.flatMap(({ sold }) => sold),
  };
};
const total = (numbers: readonly number[]): number => numbers.reduce((sum, each) => sum + each, 0);

describe('the books', () => {
  it('take in all that was paid, give out all that was refunded and spent, and the rest is the net', () => {
    fc.assert(
      fc.property(books, (given) => {
        const { movements } = kept(given);
        const { sales, costs } = given;
        const sums = moneyTotals(movements);
        const paid = sales.map(({ payments }) => total(payments.map(({ amountMinor }) => amountMinor)));
        const givenBack = sales.map(({ cancelledAt }, index) => (cancelledAt === null ? 0 : (paid[index] ?? 0)));
        expect(sums.takingsMinor).toBe(total(paid));
        expect(sums.refundsMinor).toBe(total(sales.map(({ refund }) => refund?.amountMinor ?? 0)) + total(givenBack));
        expect(sums.costsMinor).toBe(total(costs.map(({ amountMinor }) => amountMinor)));
        expect(total(Object.values(sums.costsByKind))).toBe(sums.costsMinor);
        expect(sums.animalsMinor + sums.goodsMinor + sums.postageMinor).toBe(sums.takingsMinor);
        expect(sums.takingsMinor - sums.feesMinor - sums.refundsMinor - sums.costsMinor).toBe(sums.netMinor);
      }),
      { numRuns: 300 },
    );
  });

  it('add up over lines, goods, postage and what is shared', () => {
    fc.assert(
      fc.property(books, (given) => {
        const { movements, sold } = kept(given);
        const netOf = (of: Pot['of']): number => moneyTotals(movements.filter(({ pot }) => pot.of === of)).netMinor;
        const lines = moneyByLine(movements, sold);
        expect(total(lines.map(({ netMinor }) => netMinor))).toBe(netOf('line'));
        expect(netOf('line') + netOf('goods') + netOf('postage') + netOf('shared')).toBe(
          moneyTotals(movements).netMinor,
        );
        for (const { takingsMinor, feesMinor, refundsMinor, costsMinor, netMinor } of lines) {
          expect(takingsMinor - feesMinor - refundsMinor - costsMinor).toBe(netMinor);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('add up over months and over tax years, each movement in one of them', () => {
    fc.assert(
      fc.property(books, fc.constantFrom('01-01', '04-06', '07-01', '02-29'), (given, start) => {
        const { movements } = kept(given);
        const netIn = (period: Period): number =>
          moneyTotals(movements.filter(({ day }) => isWithin(day, period))).netMinor;
        const { netMinor } = moneyTotals(movements);
        expect(total(monthsIn(allTime).map(netIn))).toBe(netMinor);
        expect(total(taxYearsIn(allTime, start as never).map(netIn))).toBe(netMinor);
      }),
      { numRuns: 100 },
    );
  });

  it('move whole minor units only', () => {
    fc.assert(
      fc.property(books, (given) => {
        for (const { minor } of kept(given).movements) expect(Number.isSafeInteger(minor)).toBe(true);
      }),
    );
  });

  it('take in no part of a payment twice or below nothing', () => {
    fc.assert(
      fc.property(sale, (given) => {
        const taken = saleMoney(given, zone).movements.filter(({ what }: Movement) => what === 'taken');
        expect(taken.every(({ minor }) => minor > 0)).toBe(true);
      }),
    );
  });
});
