import type { Played } from './couple.ts';
import { addRange, addWorld, figuresOf, noTally, type Ranges, type Tally } from './score.ts';
import type { World } from './world.ts';

/** A business and what it came to. */
export interface Outcome {
  readonly world: World;
  readonly played: Played;
}

const kindsOf = ({ habit, trade, make, tubs, thermometer }: World): string[] => [
  'all',
  `counts: ${habit}`,
  `sales: ${trade}`,
  `truth: ${make}`,
  `tubs: ${String(tubs).padStart(2)}`,
  `thermometer: ${thermometer ? 'yes' : 'no'}`,
];

/** Tallies by kind of world. */
export function talliesOf(outcomes: readonly Outcome[]): Map<string, Tally> {
  const tallies = new Map<string, Tally>();
  for (const { world, played } of outcomes) {
    for (const kind of kindsOf(world)) {
      const tally = tallies.get(kind) ?? noTally();
      tallies.set(kind, tally);
      addWorld(tally, played);
    }
  }
  return tallies;
}

const percent = (share: number): string => (Number.isNaN(share) ? '–' : (100 * share).toFixed(1)).padStart(8);
const figure = (value: number): string => (Number.isNaN(value) ? '–' : value.toFixed(1)).padStart(8);
const scoreOf = ({ score, count }: Ranges): string => figure(score / count);

const head = ['worlds', 'tub', 'line', '12 weeks', 'too much', 'unfilled', 'offered', 'tub', 'line'];

/** One way of reckoning, by kind of world. */
export function tableOf(name: string, outcomes: readonly Outcome[]): string {
  const rows = [...talliesOf(outcomes)].sort(([one], [other]) => (one < other ? -1 : 1));
  const lines = rows.map(([kind, tally]) => {
    const { tubsHeld, totalHeld, aheadHeld, tooMuch, unfilled, offered } = figuresOf(tally);
    const shares = [tubsHeld, totalHeld, aheadHeld, tooMuch, unfilled, offered].map(percent);
    return [
      kind.padEnd(32),
      String(tally.worlds).padStart(8),
      ...shares,
      scoreOf(tally.tubs),
      scoreOf(tally.total),
    ].join(' ');
  });
  const title = `${' '.repeat(41)}80 % ranges hold, %        free to promise, %         interval score`;
  const columns = [name.padEnd(32), ...head.map((word) => word.padStart(8))].join(' ');
  return [title, columns, ...lines].join('\n');
}

const ages = [
  { upToDays: 7, name: 'to 1 week' },
  { upToDays: 30, name: 'to 1 month' },
  { upToDays: 91, name: 'to 3 months' },
  { upToDays: 182, name: 'to 6 months' },
  { upToDays: Number.POSITIVE_INFINITY, name: 'longer' },
] as const;

/** How ranges of tubs hold by the time since the last full count, of couples that count in no other way. */
export function agesOf(outcomes: readonly Outcome[]): string {
  const plain = outcomes.filter(({ world: { habit } }) => /^full \w+$/.test(habit));
  const rows = ages.map(({ name }) => ({ name, ranges: noTally().tubs, width: 0 }));
  for (const { figures, tubs, sinceFull } of plain.flatMap(({ played }) => played.moments)) {
    figures.tubs.forEach((range, nth) => {
      const since = sinceFull[nth] ?? null;
      const row = since === null ? undefined : rows[ages.findIndex(({ upToDays }) => since <= upToDays)];
      if (row === undefined) return;
      addRange(row.ranges, range, tubs[nth] ?? 0);
      row.width += Math.log((range.high + 1) / (range.low + 1));
    });
  }
  const lines = rows.map(({ name, ranges: { held, below, count }, width }) =>
    [name.padEnd(32), percent(held / count), percent(below / count), figure(Math.exp(width / count))].join(' '),
  );
  const columns = [
    'since the last full count'.padEnd(32),
    ...['held', 'below', 'high/low'].map((word) => word.padStart(8)),
  ];
  return [columns.join(' '), ...lines].join('\n');
}
