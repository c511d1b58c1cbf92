import { dispatchDaysAhead } from '../src/desk/index.ts';
import { addDays, daysBetween, type LocalDay, weekdayOf } from '../src/domain/index.ts';
import { goods, outlet } from './founding.ts';
import type { SalesYear } from './salesYear.ts';
import { lineNames, type Stage, stockOfLine } from './stage.ts';

/** What is sold in the last days, so that today has something to pack, to warn of and to wait for. */
interface LastSale {
  readonly daysBefore: number;
  readonly buyer: string;
  readonly area: string;
  readonly line: string;
  readonly number: number;
  readonly moss?: number;
  /** Days from its booking to its payment; null: not paid yet. */
  readonly paidAfter: number | null;
  /** 0: the first good day from today on, 1: the one after; odd: a day on which nothing may leave, as the buyer asked for it. */
  readonly leaves: 0 | 1 | 'odd';
  readonly outlet?: string;
}

const lastSales: readonly LastSale[] = [
  { daysBefore: 4, buyer: 'dotterel', line: 'Jade', area: 'Tihodol', number: 10, paidAfter: 1, leaves: 0, moss: 1 },
  { daysBefore: 3, buyer: 'marram', line: 'Snow', area: 'Zelenbrod', number: 12, paidAfter: 2, leaves: 0, outlet },
  { daysBefore: 2, buyer: 'firecrest', line: 'Chocolate', area: 'Vetrogaj', number: 8, paidAfter: null, leaves: 1 },
  { daysBefore: 1, buyer: 'lovage', line: 'Jade', area: 'Rosodol', number: 6, paidAfter: 0, leaves: 1 },
  { daysBefore: 1, buyer: 'ouzel', line: 'Snow', area: 'Srnobrod', number: 10, paidAfter: null, leaves: 'odd' },
];

/** Days searched for the next good ones; a closed window of this business is shorter. */
const searchDays = 200;
const postageMinor = 690;

/** Books the sales that the last days have; call it every afternoon. */
export function sellOfLastDays(stage: Stage, sales: SalesYear, day: LocalDay): void {
  const due = lastSales.filter(({ daysBefore }) => daysBefore === daysBetween(day, stage.today));
  if (due.length === 0) return;
  const [first, second] = dispatchDaysAhead(stage.desk, searchDays)
    .map((judged) => judged.day)
    .filter((good) => good >= stage.today);
  if (first === undefined || second === undefined) throw new Error(`no dispatch day within ${searchDays} days`);
  for (const { buyer, area, line: wanted, number, moss, paidAfter, leaves, outlet: where } of due) {
    const line = lineWith(stage, wanted, number);
    sales.sell({
      items: [
        { of: 'line', name: line, number },
        ...(moss === undefined ? [] : [{ of: 'goods', name: goods.moss, number: moss } as const]),
      ],
      buyer,
      area,
      dispatchOn: leaves === 'odd' ? fridayAfter(first) : leaves === 0 ? first : second,
      postageMinor,
      outlet: where,
      payOn: paidAfter === null ? null : addDays(day, paidAfter),
    });
  }
}

/** Extras that a small order may need. */
const roomForExtras = 4;

/** The line that is wanted, or where it is short the one that there is most of. */
function lineWith(stage: Stage, wanted: string, number: number): string {
  const free = (line: string): number => stockOfLine(stage, line).free;
  if (free(wanted) >= number + roomForExtras) return wanted;
  return lineNames(stage).reduce((best, line) => (free(line) > free(best) ? line : best), wanted);
}

const fridayAfter = (day: LocalDay): LocalDay => addDays(day, (5 - weekdayOf(day) + 7) % 7);
