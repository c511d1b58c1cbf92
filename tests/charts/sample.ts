import type { ChartData } from '../../src/domain/index.ts';
import { addDays, day, type Instant } from '../../src/domain/index.ts';

const last = day('2027-10-12');
const weekly = (values: readonly number[]) =>
  values.map((value, index) => ({ at: addDays(last, -7 * (values.length - 1 - index)), value }));

/** Three lines over twelve weeks, one of them counted late. */
export const stockSample: ChartData = {
  title: 'Saleable by line',
  unit: 'animals',
  zone: 'Europe/Amsterdam',
  fromZero: true,
  series: [
    { name: 'jade', kind: 'line', points: weekly([60, 66, 80, 71, 90, 96, 80, 84, 99, 101, 88, 92, 97]) },
    { name: 'snow <&"', kind: 'line', points: weekly([20, 25, 24, 31, 30, 42, 40]) },
    { name: 'never counted', kind: 'line', points: [] },
  ],
};

const at = (text: string): Instant => `${text}T17:00:00.000Z` as Instant;

/** A kit's nitrate with its limit and two changes. */
export const nitrateSample: ChartData = {
  title: 'A3 nitrate',
  unit: 'mg/L',
  zone: 'Europe/Amsterdam',
  fromZero: true,
  limit: { value: 20, label: 'limit 20' },
  marks: { label: '2 water changes', at: [at('2027-09-20'), at('2027-10-04')] },
  series: [
    {
      name: 'nitrate',
      kind: 'steps',
      points: [
        { at: at('2027-09-12'), value: 10 },
        { at: at('2027-09-26'), value: 40 },
        { at: at('2027-10-10'), value: 20 },
      ],
    },
  ],
};

/** What may come with its range. */
export const bandSample: ChartData = {
  title: 'Jade to come',
  unit: 'animals',
  zone: 'UTC',
  fromZero: true,
  series: [
    {
      name: 'jade',
      kind: 'band',
      points: [
        { at: day('2027-10-12'), value: 100, low: 95, high: 105 },
        { at: day('2027-11-09'), value: 130, low: 90, high: 180 },
      ],
    },
  ],
};
