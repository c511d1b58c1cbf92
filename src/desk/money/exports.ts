import {
  type CostKind,
  costKinds,
  type ExportTable,
  fail,
  type LocalDay,
  type MonthDay,
  moneyByLine,
  moneyOfRest,
  moneyTotals,
  monthsIn,
  ok,
  type Period,
  type Refusal,
  type Result,
  taxYearsIn,
} from '../../domain/index.ts';
import type { StoredTable } from '../../store/exports.ts';
import { type Desk, todayOf } from '../desk.ts';
import { entriesBegin } from '../when.ts';
import { type Books, booksOf, booksWithin } from './books.ts';
import { firstMoneyDay, taxYearBegins } from './report.ts';
import { spanOf } from './span.ts';

/** What an export may be asked for, each with the tables that it brings; `all` brings every one. */
const contents = {
  sales: ['sales'],
  items: ['items'],
  payments: ['payments'],
  costs: ['costs'],
  months: ['months'],
  'line-months': ['line-months'],
  'tax-years': ['tax-years'],
  parcels: ['parcels', 'checks'],
  arrivals: ['arrivals'],
  claims: ['claims'],
  waiting: ['waiting'],
  tubs: ['tubs'],
  readings: ['readings'],
  changes: ['changes'],
  topups: ['topups'],
  counts: ['counts'],
  moves: ['moves'],
  losses: ['losses'],
  holds: ['holds', 'troubles'],
  goods: ['goods'],
  chores: ['chores', 'chore-list'],
  weather: ['weather'],
  setup: ['settings', 'lines', 'outlets', 'seasons', 'partners'],
  entries: ['entries'],
} as const satisfies Record<string, readonly (StoredTable | MoneyTable)[]>;

export type ExportPart = keyof typeof contents;
export const exportParts = Object.keys(contents) as ExportPart[];

type MoneyTable = 'months' | 'line-months' | 'tax-years';

export interface ExportInput {
  /** Default everything. */
  readonly what?: ExportPart | undefined;
  /** First day; default the first that the books can have, of sums the first on which money moved. Of tax years its month and day are those on which each begins. */
  readonly from?: LocalDay | undefined;
  /** Last day; default today. */
  readonly to?: LocalDay | undefined;
}

/**
 * The tables that are asked for, each to be read when it is called for: reading them all may take seconds, in which nothing else could be
 * answered. Reads only.
 */
export function exportTables(desk: Desk, input: ExportInput): Result<readonly (() => ExportTable)[], Refusal> {
  const { what, from, to } = input;
  const last = to ?? [from ?? entriesBegin, todayOf(desk)].sort().at(-1) ?? entriesBegin;
  const whole: Period = { first: from ?? entriesBegin, last };
  if (whole.first > last) return fail({ kind: 'bad-span', from: whole.first, to: last });
  const withMoney: Period = { first: from ?? [firstMoneyDay(desk) ?? last, last].sort()[0] ?? last, last };
  const names = what === undefined ? exportParts.flatMap((part) => contents[part]) : contents[what];
  const span = spanOf(desk, whole);
  const reader = (name: StoredTable | MoneyTable) => (): ExportTable =>
    isMoneyTable(name) ? moneyTables[name](desk, withMoney, from) : desk.store.exports.read(name, span.from, span.to);
  return ok(names.map(reader));
}

const isMoneyTable = (name: StoredTable | MoneyTable): name is MoneyTable => Object.hasOwn(moneyTables, name);

const money = 'money' as const;

/** The sums of a month or year, in the order of their columns. */
const sumColumns: ExportTable['columns'] = [
  ...['takings', 'of_animals', 'of_goods', 'of_postage', 'fees', 'refunds', 'costs'].map((name) => ({
    name,
    is: money,
  })),
  ...costKinds.map((kind: CostKind) => ({ name: `cost_${kind}`, is: money })),
  ...[
    { name: 'net', is: money },
    { name: 'animals_sold', is: 'number' as const },
  ],
];

function sums({ movements, sold }: Books): number[] {
  const totals = moneyTotals(movements);
  return [
    ...[totals.takingsMinor, totals.animalsMinor, totals.goodsMinor, totals.postageMinor],
    ...[totals.feesMinor, totals.refundsMinor, totals.costsMinor],
    ...costKinds.map((kind) => totals.costsByKind[kind]),
    ...[totals.netMinor, sold.reduce((sum, { number }) => sum + number, 0)],
  ];
}

const moneyTables: Record<MoneyTable, (desk: Desk, period: Period, from: LocalDay | undefined) => ExportTable> = {
  months: (desk, period) => {
    const books = booksOf(desk, period);
    return {
      name: 'months',
      columns: [{ name: 'from', is: 'day' }, { name: 'to', is: 'day' }, ...sumColumns],
      rows: monthsIn(period).map((month) => [month.first, month.last, ...sums(booksWithin(books, month))]),
    };
  },
  'line-months': (desk, period) => {
    const books = booksOf(desk, period);
    return {
      name: 'line-months',
      columns: [
        ...[
          { name: 'from', is: 'day' as const },
          { name: 'to', is: 'day' as const },
          { name: 'of', is: 'text' as const },
          { name: 'line', is: 'text' as const },
          { name: 'animals_sold', is: 'number' as const },
        ],
        ...['takings', 'fees', 'refunds', 'costs', 'net'].map((name) => ({ name, is: money })),
      ],
      rows: monthsIn(period).flatMap((month) => {
        const own = booksWithin(books, month);
        return [...lineRows(own), ...restRows(own)].map((row) => [month.first, month.last, ...row]);
      }),
    };
  },
  'tax-years': (desk, period, from) => {
    const begins = from === undefined ? taxYearBegins(desk) : (from.slice(5) as MonthDay);
    const years = taxYearsIn(period, begins);
    const [first, last] = [years[0]?.first ?? period.first, years.at(-1)?.last ?? period.last];
    const books = booksOf(desk, { first, last });
    const today = todayOf(desk);
    return {
      name: 'tax-years',
      columns: [
        { name: 'from', is: 'day' },
        { name: 'to', is: 'day' },
        { name: 'complete', is: 'text' },
        ...sumColumns,
      ],
      rows: years.map((year) => [
        ...[year.first, year.last, year.last < today ? 'yes' : 'no'],
        ...sums(booksWithin(books, year)),
      ]),
    };
  },
};

type Row = ExportTable['rows'][number];

const lineRows = ({ movements, sold }: Books): Row[] =>
  moneyByLine(movements, sold).map((line) => [
    ...['line', line.name, line.sold],
    ...[line.takingsMinor, line.feesMinor, line.refundsMinor, line.costsMinor, line.netMinor],
  ]);

/** What is no line's, so that the rows of a month add up to its net. */
const restRows = ({ movements }: Books): Row[] =>
  moneyOfRest(movements).map((rest) => [
    ...[rest.of, null, null],
    ...[rest.takingsMinor, rest.feesMinor, rest.refundsMinor, rest.costsMinor, rest.netMinor],
  ]);
