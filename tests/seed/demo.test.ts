import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seedDemo } from '../../seed/demo.ts';
import { publicHolidays } from '../../src/calendar/index.ts';
import { colonyNow } from '../../src/desk/colony/colony.ts';
import {
  businessOf,
  type Desk,
  moneyReport,
  rotaToday,
  salesList,
  seasons,
  stock,
  tubsInUse,
  tubsToWatch,
} from '../../src/desk/index.ts';
import {
  addDays,
  dayOf,
  daysBetween,
  type Instant,
  type LineStock,
  type LocalDay,
  weekdayOf,
} from '../../src/domain/index.ts';
import { openStore } from '../../src/store/open.ts';
import { taken } from '../support/sellingDesk.ts';
import { type Books, booksOf, dumpOf } from './booksOf.ts';
import { closeYears, users, yearThatEnds } from './toldYear.ts';

const zone = 'Europe/Ljubljana';
const hourMs = 3_600_000;
/** A year is lived in seconds, on a busy machine in more of them. */
const patienceMs = 240_000;

const ends = [
  { season: 'open', now: '2027-06-15T09:00:00.000Z' },
  { season: 'closed', now: '2026-12-21T21:40:00.000Z' },
  { season: 'closed', now: '2028-02-29T05:10:00.000Z' },
] as const;

afterAll(closeYears);

describe.each(ends)('the demo year that ends at $now, the season $season', ({ season, now: text }) => {
  const now = text as Instant;
  const today = dayOf(now, zone);
  let desk: Desk;
  let books: Books;
  let stocks: readonly LineStock[];

  beforeAll(() => {
    ({ desk, books, stocks } = yearThatEnds(now));
  }, patienceMs);

  const numberOf = (sql: string): number => Number(Object.values(books.rows(sql)[0] ?? {})[0]);

  it('never promises more than the tubs surely hold over their breeders', () => {
    expect(stocks).toHaveLength(74 * 3);
    const wrong = stocks.flatMap(({ line, tubs, free, promised, promisedExtras }, nth) => {
      const giving = tubs.filter(({ tub, offSale }) => offSale === null && tub.role !== 'apart');
      const members = giving.flatMap((tub) => (tub.members === null ? [] : [tub.members]));
      const all = Array.from(members[0] ?? []);
      const owed = free + promised + promisedExtras;
      const able = all.filter((_, member) => {
        return members.reduce((sum, tub) => sum + Math.max(0, (tub[member] ?? 0) - line.holdBack), 0) >= owed;
      });
      return free >= 0 && able.length >= 0.89 * all.length ? [] : [`${line.name} ${nth}: ${free}, ${able.length}`];
    });
    expect(wrong).toEqual([]);
    const sold = books.rows('SELECT line_id, sum(number) AS number FROM parcel_catch GROUP BY line_id');
    expect(sold).toHaveLength(3);
    for (const { number } of sold) expect(Number(number)).toBeGreaterThan(150);
  });

  it('knows its stock well enough to sell by', () => {
    for (const { saleable, freeRange, free } of stocks) {
      expect(saleable.low).toBeGreaterThan(0.4 * saleable.median);
      expect(saleable.high).toBeLessThan(2 * saleable.median);
      expect(free).toBeLessThanOrEqual(freeRange.median);
    }
  });

  it('counts each tub in full at first and every four months or so; by eye a part shows', () => {
    const counts = books
      .rows('SELECT tub_id, at, method, saleable FROM stock_count ORDER BY at, id')
      .map(({ tub_id, at, method, saleable }) => ({
        tub: tub_id,
        day: dayOf(at as Instant, zone),
        isFull: method === 'full',
        saleable: Number(saleable),
      }));
    const parts: number[] = [];
    for (const tub of new Set(counts.map((count) => count.tub))) {
      const own = counts.filter((count) => count.tub === tub);
      expect(own[0]?.isFull).toBe(true);
      const full = own.filter(({ isFull }) => isFull);
      const gaps = full.slice(1).map(({ day }, nth) => daysBetween(full[nth]?.day ?? day, day));
      expect(Math.max(0, ...gaps)).toBeLessThan(165);
      for (const [nth, { day, isFull, saleable }] of own.entries()) {
        const before = own[nth - 1];
        if (isFull || before?.isFull !== true || before.saleable === 0) continue;
        if (daysBetween(before.day, day) <= 30) parts.push(saleable / before.saleable);
      }
    }
    const middle = parts.sort((a, b) => a - b)[Math.floor(parts.length / 2)];
    expect(parts.length).toBeGreaterThan(20);
    expect(middle).toBeGreaterThan(0.3);
    expect(middle).toBeLessThan(0.6);
  });

  it('sends only what is paid in full, on good days', () => {
    const parcels = books.rows(`
      SELECT p.sale_id, p.at, v.region, v.price_minor + v.postage_minor AS owed,
        (SELECT sum(y.amount_minor) FROM payment y WHERE y.sale_id = p.sale_id AND y.at <= p.at) AS paid
      FROM parcel p JOIN sale_version v ON v.id = (SELECT max(id) FROM sale_version WHERE sale_id = p.sale_id)`);
    expect(parcels.length).toBeGreaterThan(70);
    expect(parcels.filter(({ owed, paid }) => owed !== paid)).toEqual([]);
    const holidays = (code: string): Set<string> =>
      new Set([2026, 2027, 2028].flatMap((year) => publicHolidays(code, year).map(({ day }) => day)));
    const [home, abroad] = [holidays('SI'), holidays('AT')];
    const wrong = parcels.filter(({ at, region }) => {
      const day = dayOf(at as Instant, zone);
      const onTheWay = [addDays(day, 1), addDays(day, 2)];
      const monthDay = day.slice(5);
      const isClosed = monthDay >= '11-20' || monthDay <= '03-15' || (monthDay >= '07-20' && monthDay <= '08-15');
      const isHoliday = [day, ...onTheWay].some((each) => home.has(each));
      return (
        isClosed || isHoliday || weekdayOf(day) > 3 || (region === 'AT' && onTheWay.some((each) => abroad.has(each)))
      );
    });
    expect(wrong).toEqual([]);
    expect(numberOf("SELECT count(*) FROM sale_version WHERE region = 'AT'")).toBeGreaterThan(3);
  });

  it('logs every claim inside the terms and answers it by refund or resend, never above what was paid', () => {
    const claims = books.rows(`
      SELECT c.at, a.delivered_at, s.how, s.amount_minor, c.dead,
        (SELECT sum(y.amount_minor) FROM payment y WHERE y.sale_id = c.sale_id) AS paid
      FROM claim c JOIN arrival a ON a.sale_id = c.sale_id LEFT JOIN claim_settlement s ON s.claim_id = c.id`);
    for (const { at, delivered_at, amount_minor, paid } of claims) {
      const afterMs = Date.parse(String(at)) - Date.parse(String(delivered_at));
      expect(afterMs).toBeGreaterThan(0);
      expect(afterMs).toBeLessThanOrEqual(48 * hourMs);
      expect(Number(amount_minor)).toBeLessThanOrEqual(Number(paid));
    }
    expect(new Set(claims.map(({ how }) => how).filter((how) => how !== null))).toEqual(new Set(['refund', 'resend']));
    const withoutClaim = 'SELECT count(*) FROM arrival WHERE dead > 0 AND sale_id NOT IN (SELECT sale_id FROM claim)';
    expect(numberOf(withoutClaim)).toBeGreaterThan(3);
  });

  it('has nothing of today or later in it, and everything in the order of its time', () => {
    const logged = books.rows('SELECT logged_at, voided_at FROM entry ORDER BY id');
    const times = logged.map(({ logged_at }) => String(logged_at));
    expect(times).toEqual([...times].sort());
    expect(dayOf(times[0] as Instant, zone)).toBe(addDays(today, -371));
    const happened = ['reading', 'water_change', 'top_up', 'stock_count', 'loss', 'hold', 'payment', 'parcel', 'claim'];
    const latest = happened.map((table) => String(books.rows(`SELECT max(at) AS at FROM ${table}`)[0]?.['at']));
    const delivered = String(books.rows('SELECT max(delivered_at) AS at FROM arrival')[0]?.['at']);
    for (const at of [times.at(-1) ?? '', ...latest, delivered]) expect(dayOf(at as Instant, zone) < today).toBe(true);
    const hours = new Set(
      times.map((at) => new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit' }).format(new Date(at))),
    );
    for (const hour of ['00', '01', '02', '03', '04', '05', '06']) expect(hours).not.toContain(hour);
  });

  it('has both act, by about their shares of the chores', () => {
    const minutes = new Map(
      books
        .rows(`
          SELECT e.user_name, sum(v.minutes) AS minutes FROM chore_done d JOIN live_entry e ON e.id = d.entry_id
            JOIN chore_version v ON v.id = (SELECT max(id) FROM chore_version WHERE chore_id = d.chore_id)
          GROUP BY e.user_name`)
        .map(({ user_name, minutes: of }) => [user_name, Number(of)]),
    );
    const [owner = 0, partner = 0] = [minutes.get('linnet'), minutes.get('rowan')];
    expect(owner / (owner + partner)).toBeGreaterThan(0.5);
    expect(owner / (owner + partner)).toBeLessThan(0.7);
    for (const kind of ['reading', 'change', 'topup', 'count', 'sale', 'payment', 'parcel', 'arrival', 'chore-done']) {
      expect(books.rows(`SELECT DISTINCT user_name FROM entry WHERE kind = '${kind}'`), kind).toHaveLength(2);
    }
  });

  it('reads nitrate in the steps of the kit, and temperatures of an unheated room', () => {
    const steps = books.rows('SELECT DISTINCT nitrate_mg_l AS step FROM reading WHERE nitrate_mg_l IS NOT NULL');
    expect(steps.length).toBeGreaterThan(2);
    for (const { step } of steps) expect([0, 5, 10, 20, 40, 80, 160]).toContain(step);
    const meanOf = (month: string): number =>
      numberOf(`SELECT avg(temp_c) FROM reading WHERE substr(at, 6, 2) = '${month}' AND temp_c IS NOT NULL`);
    expect(meanOf('01')).toBeLessThan(18);
    expect(meanOf('07')).toBeGreaterThan(23.5);
  });

  it('tells of a double change that was meant, an undone slip, holds and a quarantine', () => {
    const twice = `
      SELECT count(*) FROM water_change a JOIN water_change b ON b.tub_id = a.tub_id AND b.id > a.id
      WHERE b.note LIKE 'second change%' AND julianday(b.at) - julianday(a.at) < 1.5`;
    expect(numberOf(twice)).toBe(1);
    expect(books.rows('SELECT kind FROM entry WHERE voided_at IS NOT NULL')).toEqual([{ kind: 'change' }]);
    const lines = stock(desk);
    const shut = lines.ok ? lines.value.flatMap(({ tubs }) => tubs.filter(({ offSale }) => offSale !== null)) : [];
    expect(shut.map(({ tub }) => tub.role).sort()).toEqual(['apart', 'breeding']);
  });

  it('spends on everything that a business spends on, some of it with a tub, and nets something in the year', () => {
    expect(books.rows('SELECT DISTINCT kind FROM cost')).toHaveLength(6);
    expect(numberOf('SELECT count(*) FROM cost WHERE tub_id IS NOT NULL')).toBeGreaterThan(20);
    const { totals, lines, payback } = moneyReport(desk, { first: addDays(today, -371), last: addDays(today, -1) });
    expect(totals.netMinor).toBeGreaterThan(0);
    expect(totals.feesMinor).toBeGreaterThan(0);
    expect(lines).toHaveLength(3);
    expect(payback?.months).toBeGreaterThan(0);
  });

  it('leaves something to do today', () => {
    const open = rotaToday(desk).filter(({ done }) => done === null);
    expect(open.filter(({ due }) => due.chore.act === 'change').length).toBeGreaterThan(1);
    expect(open.some(({ lateDays }) => lateDays > 0)).toBe(true);
    expect(new Set(open.map(({ partner }) => partner))).toEqual(new Set(['linnet', 'rowan']));
    const watch = tubsToWatch(desk);
    expect(watch.length).toBeGreaterThan(1);
    expect(watch[0]?.last?.verdict.state).toBe('act');
    const sales = salesList(desk).filter(({ sale }) => (sale.dispatchOn ?? '') >= today);
    const good = sales.filter(({ judged }) => judged?.good);
    const count = (state: string): number => good.filter((listed) => listed.state === state).length;
    expect(count('paid')).toBeGreaterThan(1);
    expect(count('kept')).toBeGreaterThan(0);
    expect(sales.some(({ judged }) => judged?.verdict === 'no')).toBe(true);
    const opens: LocalDay =
      season === 'open' ? today : (seasons(desk).find(({ isClosedNow }) => isClosedNow)?.opensOn ?? today);
    const days = good.map(({ sale }) => sale.dispatchOn ?? '').sort();
    expect((days[0] ?? '') >= opens && (days[0] ?? '') < addDays(opens, 14)).toBe(true);
  });

  it('is of a size that a try-out bears', () => {
    const rows = books.tables().map((table) => numberOf(`SELECT count(*) FROM ${table}`));
    expect(numberOf('SELECT count(*) FROM entry')).toBeGreaterThan(3000);
    expect(rows.reduce((sum, count) => sum + count, 0)).toBeLessThan(16_000);
  });
});

it(
  'tells the same year again, in whatever zone the machine is, in a folder of its own',
  () => {
    const now = ends[0].now as Instant;
    const folder = mkdtempSync(join(tmpdir(), 'berried-'));
    const { first, last, parcels } = seedDemo({ folder, now, users, machineZone: 'Pacific/Auckland' });
    expect(() => seedDemo({ folder, now, users })).toThrow('already');
    expect(readdirSync(folder)).toEqual(['berried.db']);
    const again = booksOf(folder);
    expect(dumpOf(again)).toEqual(dumpOf(yearThatEnds(now).books));
    expect(again.rows('SELECT id FROM parcel')).toHaveLength(parcels);
    const today = dayOf(now, zone);
    expect([first, last]).toEqual([addDays(today, -371), addDays(today, -1)]);
    again.close();
    rmSync(folder, { recursive: true, force: true });
  },
  patienceMs,
);

it(
  'leaves the same stock, bit for bit, to a start that knows nothing but the facts; no tub gave what it hardly held',
  () => {
    const now = ends[0].now as Instant;
    const folder = mkdtempSync(join(tmpdir(), 'berried-'));
    seedDemo({ folder, now, users });
    const store = openStore(folder);
    const lived = yearThatEnds(now).desk;
    const anew: Desk = { ...lived, store };
    const surprises = tubsInUse(anew).flatMap((tub) => colonyNow(anew, businessOf(anew), tub).surprises);
    expect(surprises.filter(({ of }) => of === 'taken')).toEqual([]);
    expect(taken(stock(anew))).toEqual(taken(stock(lived)));
    store.close();
    rmSync(folder, { recursive: true, force: true });
  },
  patienceMs,
);

it('refuses in one sentence where there is a database already, and leaves it alone', () => {
  const folder = mkdtempSync(join(tmpdir(), 'berried-'));
  writeFileSync(join(folder, 'berried.db'), 'theirs');
  const run = spawnSync(process.execPath, ['--import', 'tsx', 'seed/main.ts'], {
    env: { ...process.env, BERRIED_DATA: folder },
    encoding: 'utf8',
  });
  expect(run.status).toBe(1);
  expect(run.stdout).toBe('');
  expect(run.stderr).toMatch(/^There is a database in [^\n]* already: [^\n]*\.\n$/);
  expect(readFileSync(join(folder, 'berried.db'), 'utf8')).toBe('theirs');
  rmSync(folder, { recursive: true, force: true });
});
