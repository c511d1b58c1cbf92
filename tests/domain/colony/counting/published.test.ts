import { describe, expect, it } from 'vitest';
import { carleStrub } from '../../../../src/domain/colony/counting/carleStrub.ts';
import { catchSums } from '../../../../src/domain/colony/counting/catchSums.ts';
import { removalQuantiles } from '../../../../src/domain/colony/counting/removalBelief.ts';
import { seberLeCren } from '../../../../src/domain/colony/counting/seberLeCren.ts';
import { studentT } from '../../../../src/domain/colony/counting/studentT.ts';
import { leslieDepletion, type RemovalEstimate } from '../../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../../published/table.ts';

type Row = Readonly<Record<string, string>>;

const z975 = 1.959963984540054;
const catchesIn = (row: Row): number[] => (row['catches'] ?? '').split(' ').map(Number);
const passesIn = (row: Row): number[] =>
  ['first', 'second', 'third', 'fourth'].filter((pass) => pass in row).map((pass) => numberIn(row, pass));

const estimators: Readonly<Record<string, (catches: readonly number[]) => RemovalEstimate>> = {
  carleStrub,
  seberLeCren: ([first = Number.NaN, second = Number.NaN]) => seberLeCren(first, second),
};
const estimated = (row: Row): RemovalEstimate => {
  const estimator = estimators[row['method'] ?? ''];
  if (estimator === undefined) throw new Error(`no estimator ${row['method']}`);
  return estimator(catchesIn(row));
};
const isOurs = (row: Row): boolean => estimators[row['method'] ?? ''] !== undefined;

const passes = publishedTable('removalPasses.csv').rows;
const ours = passes.filter(isOurs);
const others = passes.filter((row) => !isOurs(row));
const intervals = publishedTable('removalIntervals.csv').rows;

/** The 95 % range that the bot would give. */
const rangeOf = (catches: readonly number[]): readonly [low: number, high: number] => {
  const [low = Number.NaN, high = Number.NaN] = removalQuantiles(catchSums(catches), [0.025, 0.975]);
  return [low, high];
};

describe('published removal passes', () => {
  it.each(ours)('$catches by $method: $source', (row) => {
    const estimate = estimated(row);
    const printed = [
      ['number', estimate.number],
      ['se', estimate.standardError],
      ['capture', estimate.capture],
    ] as const;
    for (const [column, found] of printed) {
      if (row[column] === '') continue;
      expect(Math.abs(found - numberIn(row, column)), column).toBeLessThanOrEqual(numberIn(row, `${column}Within`));
    }
  });

  it.each(others)('$catches: the range holds what $method makes of them, $source', (row) => {
    const [low, high] = rangeOf(catchesIn(row));
    expect(numberIn(row, 'number')).toBeGreaterThanOrEqual(low);
    expect(numberIn(row, 'number')).toBeLessThanOrEqual(high);
  });

  it.each(intervals.filter(({ kind }) => kind === 'normal'))('$catches: N ± 1.96 SE is $low to $high', (row) => {
    const catches = catchesIn(row);
    const { number, standardError } = estimated({
      ...row,
      method: catches.length === 2 ? 'seberLeCren' : 'carleStrub',
    });
    expect(number - z975 * standardError).toBeCloseTo(numberIn(row, 'low'), 2);
    expect(number + z975 * standardError).toBeCloseTo(numberIn(row, 'high'), 2);
  });

  it.each(intervals.filter(({ kind }) => kind === 'likelihood'))(
    '$catches: the likelihood interval is as wide',
    (row) => {
      const [low, high] = rangeOf(catchesIn(row));
      expect(Math.abs(low - numberIn(row, 'low'))).toBeLessThanOrEqual(2);
      expect(high).toBeGreaterThanOrEqual(numberIn(row, 'high'));
    },
  );

  it.each(publishedTable('removalJonesStockwell.csv').rows)('$first $second $third: Jones & Stockwell 1995', (row) => {
    const printed = numberIn(row, 'number');
    const off = Math.abs(carleStrub(passesIn(row)).number - printed);
    expect(off).toBeLessThanOrEqual(Math.max(1, printed / 100));
  });

  it.each(publishedTable('removalSchnute1983.csv').rows)('$first $second $third $fourth: Schnute 1983', (row) => {
    const [low, high] = rangeOf(passesIn(row));
    expect(numberIn(row, 'number')).toBeGreaterThanOrEqual(low);
    expect(numberIn(row, 'number')).toBeLessThanOrEqual(high);
  });

  it('are all read', () => {
    const read = [ours, others, intervals, publishedTable('removalJonesStockwell.csv').rows];
    expect(read.map(({ length }) => length)).toEqual([8, 4, 3, 19]);
    expect(publishedTable('removalSchnute1983.csv').rows).toHaveLength(11);
  });
});

describe('the depletion of Omand 1951', () => {
  const catches = publishedTable('depletionOmand1951.csv').rows.map((row) => ({
    caught: numberIn(row, 'caught'),
    effort: numberIn(row, 'effort'),
  }));
  const depletion = (ricker: boolean) => {
    const found = leslieDepletion(catches, { ricker, level: 0.95 });
    if (!found.ok) throw new Error(found.fault.kind);
    return found.value;
  };
  const answers = publishedTable('depletionAnswers.csv').rows;

  it.each(answers.filter(({ method }) => method !== 'delury'))('$method: $quantity $value', (row) => {
    const { number, standardError, catchability, catchabilityError, freedom } = depletion(row['method'] === 'ricker');
    const t = studentT(0.95, freedom);
    const quantities: Readonly<Record<string, number>> = {
      number,
      standardError,
      catchability,
      catchabilityError,
      numberLow: number - t * standardError,
      numberHigh: number + t * standardError,
      catchabilityLow: catchability - t * catchabilityError,
      catchabilityHigh: catchability + t * catchabilityError,
      intercept: catchability * number,
      // Of a line with an intercept R² = t²/(t² + ν), t of the slope.
      rSquared: 1 / (1 + freedom / (catchability / catchabilityError) ** 2),
    };
    const off = Math.abs((quantities[row['quantity'] ?? ''] ?? Number.NaN) - numberIn(row, 'value'));
    expect(off).toBeLessThanOrEqual(numberIn(row, 'within'));
  });

  it.each(answers.filter(({ method }) => method === 'delury'))("the interval holds DeLury's number, $value", (row) => {
    const { caught, low, high } = depletion(false);
    expect(caught).toBe(710);
    expect(low).toBeGreaterThan(caught);
    expect(numberIn(row, 'value')).toBeGreaterThan(low);
    expect(numberIn(row, 'value')).toBeLessThan(high);
  });

  it('is all read', () => {
    expect([catches.length, answers.length]).toEqual([10, 14]);
  });
});

describe("Student's t", () => {
  it.each(publishedTable('studentT.csv').rows)('$freedom degrees, $level: $t', (row) => {
    expect(studentT(numberIn(row, 'level'), numberIn(row, 'freedom')).toFixed(3)).toBe(row['t']);
  });

  it.each([
    [0, 3],
    [1, 3],
    [0.8, 0],
    [0.8, 2.5],
  ])('of level %d with %d degrees is a bug', (level, freedom) => {
    expect(() => studentT(level, freedom)).toThrow(RangeError);
  });
});
