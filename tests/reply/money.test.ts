import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CostKind,
  costKinds,
  day,
  defaultBusiness,
  type Instant,
  type MoneyReport,
  type MoneyTotals,
  monthOf,
  monthsIn,
  type Payback,
} from '../../src/domain/index.ts';
import {
  costCard,
  exportCard,
  exportFiles,
  forgetAskCard,
  forgottenCard,
  moneyCard,
  moneyYearCard,
  voiceFor,
} from '../../src/reply/index.ts';
import { expectPhone } from './phone.ts';

fc.configureGlobal({ seed: 20270413 });

const now = '2027-04-13T17:00:00.000Z' as Instant;
const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, now);

const totals = (more: Partial<MoneyTotals> = {}): MoneyTotals => ({
  ...{ takingsMinor: 11_800, animalsMinor: 10_000, goodsMinor: 0, postageMinor: 1800 },
  ...{ feesMinor: 700, refundsMinor: 400, costsMinor: 3550, netMinor: 7150 },
  costsByKind: { feed: 1280, packing: 0, postage: 2270, gear: 0, tub: 0, other: 0 },
  ...more,
});
const line = (name: string, sold: number, takingsMinor: number, netMinor: number) => ({
  ...{ lineId: 1, name, sold, takingsMinor, feesMinor: 0, refundsMinor: 0, costsMinor: 0, netMinor },
  ...{ perTenMinor: Math.round((netMinor * 10) / sold), perLitreMinor: 12 },
});
const rest = (of: 'goods' | 'postage' | 'shared', takingsMinor: number, netMinor: number) => ({
  ...{ of, takingsMinor, netMinor, feesMinor: 0, refundsMinor: 0, costsMinor: of === 'shared' ? -netMinor : 0 },
});
const payback: Payback = { line: 'jade', netPerMonthMinor: 810, costMinor: 3800, months: 5 };
const report = (more: Partial<MoneyReport> = {}): MoneyReport => ({
  period: monthOf(day('2027-04-01')),
  isSoFar: true,
  totals: totals(),
  lines: [line('jade', 40, 8000, 7100), line('chocolate', 10, 2000, 1800)],
  rest: [rest('goods', 0, 0), rest('postage', 1800, 1800), rest('shared', 0, -3550)],
  ...{ sold: 50, perTenMinor: 1430, perLitreMinor: 15, perHourMinor: 890, choreHours: 8.03, guessed: 0, payback },
  ...more,
});

describe('the card of a month', () => {
  it('says the net first, then what came and went, what each brought, and every line', () => {
    const card = moneyCard(voice, report(), '2027');
    expectPhone(card);
    expect([card.title, ...(card.why ?? [])]).toEqual([
      'April so far: €71.50 net',
      'In €118.00 (animals €100.00, postage €18.00)',
      'Out €46.50 (fees €7.00, refunds €4.00, costs €35.50)',
      'Costs: postage €22.70, feed €12.80',
      'Net €14.30 per ten · €0.15 a tub-litre · €8.90 a chore hour',
      '50 animals sold · 8 h of chores by their minutes',
      'A tub-litre: jade €0.12, chocola… €0.12',
      'Lines are told before the costs that they share',
      'Payback of one more jade tub: 5 months, €38.00 at €8.10 a month',
    ]);
    expect(card.table).toEqual([
      'line     sold    taken      net   /ten',
      'jade       40    80.00    71.00  17.75',
      'chocola…   10    20.00    18.00  18.00',
      'postage          18.00    18.00',
      'shared                   -35.50',
    ]);
  });

  it('says how a tub pays back, or why it cannot', () => {
    const lastLine = (told: Payback | null) => moneyCard(voice, report({ payback: told }), '2027').why?.at(-1);
    expect(lastLine({ ...payback, months: null, netPerMonthMinor: -120 })).toBe(
      'Payback of one more jade tub: never, it nets -€1.20 a month',
    );
    expect(lastLine({ ...payback, months: null, costMinor: null })).toBe(
      'One more jade tub nets €8.10 a month; what one cost is not logged',
    );
    expect(lastLine(null)).toBe('Lines are told before the costs that they share');
  });

  it('of nothing says so, and of a loss too', () => {
    const none = totals({ takingsMinor: 0, feesMinor: 0, refundsMinor: 0, costsMinor: 0, netMinor: 0 });
    const card = moneyCard(
      voice,
      report({ totals: none, lines: [], rest: [], sold: 0, payback: null, choreHours: 0 }),
      '2027',
    );
    expect(card).toMatchObject({ title: 'April so far: €0.00 net', why: ['No money came or went'], table: [] });
    expect(moneyCard(voice, report({ totals: totals({ netMinor: -3550 }) }), '2027').title).toBe(
      'April so far: -€35.50 net',
    );
  });

  it('asks for the costs of a month with takings and none', () => {
    const without = totals({
      costsMinor: 0,
      costsByKind: { feed: 0, packing: 0, postage: 0, gear: 0, tub: 0, other: 0 },
    });
    expect(moneyCard(voice, report({ totals: without }), '2027').next).toBe('Log what was spent with /cost');
  });

  it('fits a phone, whatever the figures and names', () => {
    const minor = fc.integer({ min: -9_999_999, max: 9_999_999 });
    const name = fc.string({ minLength: 1, maxLength: 30 }).map((text) => text.replaceAll('!', '.').trim() || 'x');
    const lines = fc.array(
      fc.tuple(name, fc.integer({ min: 1, max: 9999 }), minor, minor).map((each) => line(...each)),
      { maxLength: 20 },
    );
    const kinds = fc.record(
      Object.fromEntries(costKinds.map((kind) => [kind, minor])) as Record<CostKind, typeof minor>,
    );
    fc.assert(
      fc.property(lines, kinds, minor, fc.option(minor, { nil: null }), (own, costsByKind, any, perTenMinor) => {
        const all = totals({ takingsMinor: any, netMinor: any, animalsMinor: any, postageMinor: any, costsByKind });
        const told = report({
          lines: own,
          totals: all,
          perTenMinor,
          payback: { ...payback, line: own[0]?.name ?? 'jade' },
        });
        expectPhone({ ...moneyCard(voice, told, '2027'), table: [] });
        for (const row of moneyCard(voice, told, '2027').table ?? []) expect(row.length).toBeLessThanOrEqual(38);
      }),
      { numRuns: 200 },
    );
  });
});

it('the card of a year lists its months, and leads to each and to the year before', () => {
  const period = { first: day('2026-04-06'), last: day('2027-04-05') };
  const months = monthsIn(period).map((month) => ({ period: month, totals: totals() }));
  const card = moneyYearCard(voice, { year: report({ period, isSoFar: false }), months });
  expectPhone(card);
  expect(card.title).toBe('Year from 6 Apr 2026: €71.50 net');
  expect(card.table?.slice(0, 2)).toEqual([
    'month           in       out       net',
    'Apr 26      118.00     46.50     71.50',
  ]);
  const [select] = (card.controls ?? [])[1] ?? [];
  expect(select).toMatchObject({ kind: 'select', options: { length: 13, 0: { value: '2027-04', label: 'April' } } });
  expect(
    moneyYearCard(voice, {
      year: report({ period: { first: day('2027-01-01'), last: day('2027-12-31') } }),
      months: [],
    }).title,
  ).toBe('2027 so far: €71.50 net');
});

it('the card of a cost says who bears it and what its kind comes to', () => {
  const cost = {
    ...{ id: 1, entryId: 7, at: now, by: 'wren', loggedAt: now, amountMinor: 1250, what: 'flakes' },
    kind: 'feed' as const,
  };
  const card = costCard(voice, 'wren', { cost: { ...cost, tub: null }, kindInMonthMinor: 3000, entryId: 7 });
  expectPhone(card);
  expect([card.title, ...(card.why ?? [])]).toEqual([
    'Spent €12.50: flakes',
    'Feed, shared by all lines',
    'Feed in April: €30.00',
    'logged by wren 19:00',
  ]);
  const tub = { id: 1, name: 'A3', lineId: 1, lineName: 'jade' };
  const long = { ...cost, what: 'a new sponge filter with hose and valve', tub };
  const own = costCard(voice, 'wren', { cost: long, kindInMonthMinor: 3000, entryId: 7 });
  expectPhone(own);
  expect(own.why).toEqual([
    ...['a new sponge filter with hose and valve', 'Feed, for A3: jade bears it', 'Feed in April: €30.00'],
    'logged by wren 19:00',
  ]);
});

describe('the card of an export', () => {
  const table = (name: string, rows: number, column = 'tub') =>
    exportFiles(voice, {
      ...{ name, columns: [{ name: column, is: 'text' }] },
      rows: Array.from({ length: rows }, () => ['x']),
    });

  it('carries a file for each table with rows, and says which have none', () => {
    const tables = [table('sales', 2, 'buyer'), table('readings', 1200), table('waiting', 0), table('line-months', 9)];
    const card = exportCard(voice, tables, { from: day('2027-01-01') });
    expectPhone(card);
    expect(card).toMatchObject({
      title: 'Export: 3 tables',
      why: ['From Fri 1 Jan', 'Empty, so left out: waiting', 'Amounts in EUR, times of Europe/Amsterdam', {}, {}],
      table: ['sales            2  line-months      9', 'readings      1200'],
    });
    expect(card.files?.map(({ name }) => name)).toEqual([
      'sales-2027-04-13.csv',
      'readings-2027-04-13.csv',
      'line-months-2027-04-13.csv',
    ]);
    expect(card.why?.at(-1)).toBe("Buyers' data are in it: only you see this message");
  });

  it('carries the one that was asked for, empty or not', () => {
    const card = exportCard(voice, [table('losses', 0)], {});
    expectPhone(card);
    expect(card).toMatchObject({ title: 'Export: losses, 0 rows', files: [{ text: 'tub\r\n' }] });
  });
});

describe('the cards of forgetting', () => {
  const counts = { sales: 3, photos: 2, trackings: 1, notes: 1, waiting: 1, searchesNotes: true, buyerId: 7 };

  it('ask with what goes and what stays', () => {
    const card = forgetAskCard({
      ...counts,
      buyer: 'a buyer with a name of thirty',
      onTheWay: [41],
      searchesNotes: false,
    });
    expectPhone(card);
    expect(card.why?.[0]).toBe('3 sales · 2 photos · 1 tracking number · 1 note · 1 wait');
    expect(card.controls?.[0]).toMatchObject([
      { tone: 'danger', press: { act: 'buyer-forget', args: { buyer: 7 } } },
      {},
    ]);
  });

  it('say what the bot cannot reach', () => {
    const done = { ...counts, photosLeft: ['a.jpg'], isCompact: false, backupsFreeOn: day('2027-04-27') };
    const card = forgottenCard(voice, done);
    expectPhone(card);
    expect(card.why).toEqual(
      expect.arrayContaining(['Not deleted, do it by hand: photos/a.jpg', 'Nightly backups hold it until Tue 27 Apr']),
    );
  });
});
