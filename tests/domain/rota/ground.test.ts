import { describe, expect, it } from 'vitest';
import {
  type Chore,
  type ChoreFacts,
  day,
  dueChores,
  feedingDays,
  hatchDays,
  type Instant,
  isSouthern,
  type LocalDay,
  seasonOn,
  type Tub,
  type TubGrounds,
  youngDays,
} from '../../../src/domain/index.ts';

const zone = 'Europe/Amsterdam';
const at = (text: string): Instant => new Date(text).toISOString() as Instant;
const counted = (juveniles: number | null, berried: number | null, on = '2027-04-01T08:00:00Z') => ({
  at: at(on),
  juveniles,
  berried,
});

describe('how often they are fed', () => {
  it('follows the water: three times a week at 23.5 °C, twice at 20, once at 16.5', () => {
    expect([26, 23.5, 21.75, 20, 16.5].map((tempC) => feedingDays(140, tempC))).toEqual([140, 140, 168, 210, 420]);
    expect([23.5, 20, 16.5].map((tempC) => feedingDays(2, tempC))).toEqual([2, 3, 6]);
  });

  it('is as set where nobody measured, and never less than a third of that', () => {
    expect(feedingDays(2, null)).toBe(2);
    expect([13, 5, 2].map((tempC) => feedingDays(2, tempC))).toEqual([6, 6, 6]);
  });
});

describe('the season of a chore', () => {
  const warm = (on: string, south = false) => seasonOn('warm', day(on), south);

  it('is the one that runs, or the next', () => {
    expect(warm('2027-04-30')).toEqual({ from: '2027-05-01', to: '2027-10-31' });
    expect(warm('2027-10-31')).toEqual({ from: '2027-05-01', to: '2027-10-31' });
    expect(warm('2027-11-01')).toEqual({ from: '2028-05-01', to: '2028-10-31' });
    expect(seasonOn('cool', day('2027-02-01'), false)).toEqual({ from: '2026-11-01', to: '2027-04-30' });
    expect(seasonOn('cool', day('2027-12-31'), false)).toEqual({ from: '2027-11-01', to: '2028-04-30' });
    expect(seasonOn('all', day('2027-02-01'), false)).toBeNull();
  });

  it('is the other half of the year south of the equator', () => {
    expect(warm('2027-02-01', true)).toEqual({ from: '2026-11-01', to: '2027-04-30' });
    expect([null, 'NL', 'US-OR', 'AU-VIC', 'nz'].map(isSouthern)).toEqual([false, false, false, true, true]);
  });
});

describe('young', () => {
  it('are expected from half the days that eggs are carried', () => {
    expect(hatchDays(counted(null, 4), 24, zone)).toEqual({ from: '2027-04-12', to: '2027-05-01' });
    const cool = hatchDays(counted(null, 4), 20, zone);
    expect(cool !== null && cool.from > '2027-04-12').toBe(true);
    expect(hatchDays(counted(null, 4), null, zone)).toEqual(hatchDays(counted(null, 4), 22, zone));
  });

  it('are not expected without eggs, nor where eggs are not carried to the end', () => {
    expect(hatchDays(counted(9, 0), 24, zone)).toBeNull();
    expect(hatchDays(counted(9, null), 24, zone)).toBeNull();
    expect(hatchDays(counted(9, 4), 33, zone)).toBeNull();
    expect(hatchDays(counted(9, 4), 12, zone)).toBeNull();
  });

  it('get powder for six weeks from when they were seen or hatch', () => {
    expect(youngDays(counted(5, null), 24, zone, day('2027-04-20'))).toEqual({ from: '2027-04-01', to: '2027-05-13' });
    expect(youngDays(counted(5, 2), 24, zone, day('2027-04-20'))).toEqual({ from: '2027-04-01', to: '2027-06-12' });
    expect(youngDays(counted(0, 2), 24, zone, day('2027-04-02'))?.from).toBe('2027-04-12');
    expect(youngDays(counted(0, 0), 24, zone, day('2027-04-20'))).toBeNull();
    expect(youngDays(counted(5, null), 24, zone, day('2027-05-14'))).toBeNull();
  });
});

const tub = (id: number, rack = 'A'): Tub => ({
  id,
  name: `${rack}${id}`,
  lineId: 1,
  lineName: 'jade',
  litres: 25,
  netLitres: 20,
  rack,
  role: 'breeding',
  addedAt: at('2027-01-01T18:00:00Z'),
  retired: null,
});
const chore = (more: Partial<Chore>): Chore => ({
  id: 1,
  name: 'chore',
  act: 'own',
  everyDays: 3,
  minutes: 5,
  scope: 'tub',
  season: 'all',
  dependsOn: 'interval',
  userId: null,
  off: false,
  addedAt: at('2027-01-01T18:00:00Z'),
  ...more,
});
const nothing: TubGrounds = { tempC: null, count: null, hold: null, troubleAt: null };

/** When one chore is due at two tubs of a rack, on 20 April, done last on the given day or never. */
function dueOf(
  of: Partial<Chore>,
  {
    tubs = {},
    lastOn,
    ...facts
  }: Partial<Omit<ChoreFacts, 'tubs'>> & { tubs?: Record<number, TubGrounds>; lastOn?: string },
) {
  const tick =
    lastOn === undefined ? [] : [1, 2].map((tubId) => done(`${lastOn}T12:00:00Z`, of.scope === 'rack' ? null : tubId));
  return dueChores({
    chores: [chore(of)],
    tubs: [tub(1), tub(2)],
    zone,
    lastActs: { change: new Map(), reading: new Map(), test: new Map(), topup: new Map() },
    ticks: tick,
    later: [],
    handedOver: [],
    changeDueOn: () => day('2027-04-20'),
    facts: {
      today: day('2027-04-20'),
      zone,
      isSouth: false,
      claims: [],
      ...facts,
      tubs: new Map([1, 2].map((id) => [id, tubs[id] ?? nothing])),
    },
  });
}
const done = (on: string, tubId: number | null) => ({
  ...{ id: 1, entryId: 1, by: 'wren', choreId: 1, at: at(on), loggedAt: at(on) },
  ...{ tubId, rack: tubId === null ? 'A' : null },
});
const words = (due: ReturnType<typeof dueOf>) =>
  due.map(({ target, dueOn, everyDays, until }) => [
    target.of === 'tub' ? target.tubId : target.of,
    dueOn,
    everyDays,
    until,
  ]);

describe('a chore that hangs on', () => {
  it('warmth comes by the middle temperature of its tubs', () => {
    const tubs = { 1: { ...nothing, tempC: 19 }, 2: { ...nothing, tempC: 21 } };
    const due = dueOf({ dependsOn: 'warmth', scope: 'rack', everyDays: 2 }, { tubs, lastOn: '2027-04-18' });
    expect(words(due)).toEqual([['rack', '2027-04-21', 3, null]]);
    const unknown = dueOf({ dependsOn: 'warmth', scope: 'rack', everyDays: 2 }, { lastOn: '2027-04-18' });
    expect(words(unknown)).toEqual([['rack', '2027-04-20', 2, null]]);
  });

  it('young comes only where they are, and as long as they are', () => {
    const tubs = { 2: { ...nothing, tempC: 24, count: counted(6, 0) } };
    expect(words(dueOf({ dependsOn: 'young' }, { tubs }))).toEqual([[2, '2027-04-01', 3, '2027-05-13']]);
    const fed = dueOf({ dependsOn: 'young' }, { tubs, lastOn: '2027-04-19' });
    expect(words(fed)).toEqual([[2, '2027-04-22', 3, '2027-05-13']]);
    const ahead = { 1: { ...nothing, tempC: 24, count: counted(0, 3, '2027-04-19T08:00:00Z') } };
    expect(words(dueOf({ dependsOn: 'young' }, { tubs: ahead, lastOn: '2027-04-19' }))[0]?.[1]).toBe('2027-04-30');
  });

  it('a hatch comes once for each count', () => {
    const tubs = { 1: { ...nothing, tempC: 24, count: counted(0, 3) } };
    expect(words(dueOf({ dependsOn: 'hatch' }, { tubs }))).toEqual([[1, '2027-04-12', null, '2027-05-01']]);
    expect(words(dueOf({ dependsOn: 'hatch' }, { tubs, lastOn: '2027-03-30' }))).toHaveLength(1);
    expect(dueOf({ dependsOn: 'hatch' }, { tubs, lastOn: '2027-04-13' })).toEqual([]);
    expect(dueOf({ dependsOn: 'hatch' }, { tubs, today: day('2027-05-02') })).toEqual([]);
  });

  it('a hold comes on its last day, until somebody looked', () => {
    const hold = (until: string | null) => ({
      1: { ...nothing, hold: { at: at('2027-04-01T08:00:00Z'), until: until as LocalDay | null } },
    });
    const due = (until: string | null, lastOn?: string) =>
      words(dueOf({ dependsOn: 'hold' }, { tubs: hold(until), ...(lastOn !== undefined && { lastOn }) }));
    expect(due('2027-04-22')).toEqual([[1, '2027-04-22', null, '2027-05-06']]);
    expect(due('2027-04-18', '2027-03-01')).toHaveLength(1);
    expect([due('2027-04-18', '2027-04-18'), due(null), due('2027-04-01')]).toEqual([[], [], []]);
  });

  it('claims comes on the days on which one may come', () => {
    const claims = [
      { from: day('2027-04-19'), to: day('2027-04-21') },
      { from: day('2027-04-22'), to: day('2027-04-23') },
      { from: day('2027-04-27'), to: day('2027-04-28') },
      { from: day('2027-04-10'), to: day('2027-04-12') },
    ];
    const watch: Partial<Chore> = { dependsOn: 'claim', scope: 'business', everyDays: 1 };
    expect(words(dueOf(watch, { claims }))).toEqual([['business', '2027-04-19', 1, '2027-04-23']]);
    expect(dueOf(watch, {})).toEqual([]);
  });

  it('trouble comes in the days after it: a test once, anything else each day', () => {
    const tubs = { 1: { ...nothing, troubleAt: at('2027-04-19T18:00:00Z') } };
    const look: Partial<Chore> = { dependsOn: 'trouble', everyDays: 1 };
    expect(words(dueOf(look, { tubs }))).toEqual([[1, '2027-04-20', 1, '2027-04-22']]);
    expect(words(dueOf(look, { tubs, lastOn: '2027-04-20' }))).toEqual([[1, '2027-04-21', 1, '2027-04-22']]);
    expect(words(dueOf({ ...look, act: 'test' }, { tubs }))).toEqual([[1, '2027-04-20', null, '2027-04-22']]);
    // The test of the day itself is not the one of the day after.
    expect(dueOf({ ...look, act: 'test' }, { tubs, lastOn: '2027-04-19' })).toHaveLength(1);
    expect(dueOf({ ...look, act: 'test' }, { tubs, lastOn: '2027-04-20' })).toEqual([]);
    const before = { 1: { ...nothing, troubleAt: at('2027-04-16T18:00:00Z') } };
    expect(dueOf(look, { tubs: before })).toEqual([]);
  });

  it('a season is spread over its first interval, and over when the season is', () => {
    const trim = (lastOn?: string, today = '2027-04-20') =>
      dueOf({ season: 'warm', everyDays: 42 }, { today: day(today), ...(lastOn !== undefined && { lastOn }) });
    for (const lastOn of [undefined, '2026-09-01']) {
      const days = trim(lastOn).map(({ dueOn }) => dueOn);
      expect(days.every((on) => on > '2027-05-01' && on <= '2027-06-12')).toBe(true);
      expect(new Set(days).size).toBe(2);
    }
    expect(trim('2027-05-10', '2027-05-20').map(({ dueOn }) => dueOn)).toEqual(['2027-06-21', '2027-06-21']);
    expect(trim('2027-10-01', '2027-10-20')).toEqual([]);
  });
});
