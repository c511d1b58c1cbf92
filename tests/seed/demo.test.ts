import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoYear, seedDemo, stageOn } from '../../seed/demo.ts';
import { publicHolidays } from '../../src/calendar/index.ts';
import { type Desk, moneyReport, rotaToday, salesList, seasons, stock, tubsToWatch } from '../../src/desk/index.ts';
import { addDays, dayOf, type Instant, type LocalDay, weekdayOf } from '../../src/domain/index.ts';
import { openStore } from '../../src/store/open.ts';
import { type Books, booksOf, dumpOf, stockEvents } from './booksOf.ts';

const zone = 'Europe/Ljubljana';
const users = { owner: { userId: '11', name: 'linnet' }, partner: { userId: '12', name: 'rowan' } };
const hourMs = 3_600_000;
/** A year is lived in seconds, on a busy machine in more of them. */
const patienceMs = 240_000;

const ends = [
  { season: 'open', now: '2027-06-15T09:00:00.000Z' },
  { season: 'closed', now: '2026-12-21T21:40:00.000Z' },
  { season: 'closed', now: '2028-02-29T05:10:00.000Z' },
] as const;

interface Told {
  readonly desk: Desk;
  readonly books: Books;
  /** What was free of each line at the end of each day. */
  readonly free: readonly number[];
  close(): void;
}

const told = new Map<Instant, Told>();

/** The year that ends at a moment, watched day by day; lived once. */
function yearThatEnds(now: Instant): Told {
  const known = told.get(now);
  if (known !== undefined) return known;
  const folder = mkdtempSync(join(tmpdir(), 'berried-'));
  const store = openStore(folder);
  const stage = stageOn(store, { now, users });
  const free: number[] = [];
  store.write(() => {
    for (const _ of demoYear(stage, now)) {
      const lines = stock(stage.desk);
      if (lines.ok) free.push(...lines.value.map((line) => line.free));
    }
  });
  const books = booksOf(folder);
  const close = (): void => {
    books.close();
    store.close();
    rmSync(folder, { recursive: true, force: true });
  };
  const year = { desk: { ...stage.desk, now: () => now }, books, free, close };
  told.set(now, year);
  return year;
}

afterAll(() => {
  for (const year of told.values()) year.close();
});

describe.each(ends)('the demo year that ends at $now, the season $season', ({ season, now: text }) => {
  const now = text as Instant;
  const today = dayOf(now, zone);
  let desk: Desk;
  let books: Books;
  let free: readonly number[];

  beforeAll(() => {
    ({ desk, books, free } = yearThatEnds(now));
  }, patienceMs);

  const numberOf = (sql: string): number => Number(Object.values(books.rows(sql)[0] ?? {})[0]);

  it('never promises more than there is', () => {
    expect(free).toHaveLength(371 * 3);
    expect(Math.min(...free)).toBeGreaterThanOrEqual(0);
  });

  it('keeps the books of every tub at or above nothing, and sells no more of a line than was ever there', () => {
    const inBooks = new Map<number, number>();
    const came = new Map<number, number>();
    const wrong: string[] = [];
    for (const { tub, line, counted, by } of stockEvents(books)) {
      const before = inBooks.get(tub) ?? 0;
      const after = counted ?? before + by;
      if (after < 0) wrong.push(`tub ${tub}: ${before} ${by}`);
      if (counted !== null && counted > before) came.set(line, (came.get(line) ?? 0) + counted - before);
      inBooks.set(tub, after);
    }
    expect(wrong).toEqual([]);
    const sold = books.rows('SELECT line_id, sum(number) AS number FROM parcel_catch GROUP BY line_id');
    expect(sold).toHaveLength(3);
    for (const { line_id, number } of sold) {
      expect(Number(number)).toBeGreaterThan(150);
      expect(Number(number)).toBeLessThanOrEqual(came.get(Number(line_id)) ?? 0);
    }
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
