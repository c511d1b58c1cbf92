import { describe, expect, it } from 'vitest';
import {
  type Chore,
  type ChoreTick,
  type DueQuestion,
  day,
  dueChores,
  type Instant,
  type LocalDay,
  laterDays,
  type Tub,
} from '../../../src/domain/index.ts';

const at = (text: string): Instant => new Date(text).toISOString() as Instant;

const tub = (id: number, name: string, rack = 'A'): Tub => ({
  id,
  name,
  lineId: 1,
  lineName: 'jade',
  litres: 25,
  netLitres: 20,
  rack,
  role: 'breeding',
  addedAt: at('2027-04-01T18:00:00Z'),
  retired: null,
});

const chore = (id: number, more: Partial<Chore> = {}): Chore => ({
  id,
  name: `chore ${id}`,
  act: 'own',
  everyDays: 4,
  minutes: 5,
  scope: 'rack',
  season: 'all',
  dependsOn: 'interval',
  userId: null,
  off: false,
  addedAt: at('2027-04-01T18:00:00Z'),
  ...more,
});

const logged = (instant: string) => ({ id: 1, entryId: 1, at: at(instant), by: 'wren', loggedAt: at(instant) });
const noActs = { change: new Map(), reading: new Map(), test: new Map(), topup: new Map() };

const question = (more: Partial<DueQuestion>): DueQuestion => ({
  chores: [],
  tubs: [tub(1, 'A1'), tub(2, 'A2'), tub(3, 'B1', 'B')],
  zone: 'Europe/Amsterdam',
  lastActs: noActs,
  ticks: [],
  later: [],
  handedOver: [],
  changeDueOn: () => day('2027-04-09'),
  facts: { today: day('2027-04-09'), zone: 'Europe/Amsterdam', isSouth: false, tubs: new Map(), claims: [] },
  ...more,
});

const days = (asked: DueQuestion): string[] =>
  dueChores(asked).map(
    ({ target, dueOn }) => `${target.of === 'tub' ? target.name : target.of === 'rack' ? target.rack : 'all'} ${dueOn}`,
  );

describe('when a chore falls due', () => {
  it('is its interval after the last tick, by local days', () => {
    const ticks = [{ ...logged('2027-04-05T22:30:00Z'), choreId: 1, tubId: null, rack: 'A' }];
    const due = dueChores(question({ chores: [chore(1)], ticks })).find(
      ({ target }) => target.of === 'rack' && target.rack === 'A',
    );
    expect(due?.dueOn).toBe('2027-04-10');
    expect(due?.lastDone).toEqual({ at: at('2027-04-05T22:30:00Z'), by: 'wren' });
  });

  it('is for a tub that was never done spread over its first interval, and stays where the rack grows', () => {
    const tubs = Array.from({ length: 28 }, (_, index) => tub(index + 1, `A${index + 1}`));
    const asked = question({ chores: [chore(5, { scope: 'tub', everyDays: 28 })], tubs });
    const spread = dueChores(asked);
    const perDay = new Map<LocalDay, number>();
    for (const { dueOn } of spread) perDay.set(dueOn, (perDay.get(dueOn) ?? 0) + 1);
    expect(Math.max(...perDay.values())).toBeLessThanOrEqual(2);
    expect([...perDay.keys()].every((on) => on > '2027-04-01' && on < '2027-04-29')).toBe(true);
    const fewer = dueChores({ ...asked, tubs: tubs.slice(0, 10) });
    for (const { target, dueOn } of fewer) expect(spread).toContainEqual(expect.objectContaining({ target, dueOn }));
  });

  it('is today for what is done every day', () => {
    expect(days(question({ chores: [chore(1, { scope: 'business', everyDays: 1 })] }))).toEqual(['all 2027-04-01']);
  });

  it('is the change plan for a water change', () => {
    const chores = [chore(4, { act: 'change', scope: 'tub', everyDays: 7 })];
    expect(days(question({ chores }))).toEqual(['A1 2027-04-09', 'A2 2027-04-09', 'B1 2027-04-09']);
  });

  it('counts from a top-up of any tub of the rack, and from a reading of the tub itself', () => {
    const tick: ChoreTick = { at: at('2027-04-20T08:00:00Z'), by: 'alder' };
    const lastActs = { ...noActs, topup: new Map([[2, tick]]), reading: new Map([[3, tick]]) };
    const chores = [chore(3, { act: 'topup' }), chore(5, { act: 'reading', scope: 'tub', everyDays: 28 })];
    const said = days(question({ chores, lastActs }));
    expect(said).toContain('A 2027-04-24');
    expect(said).toContain('B1 2027-05-18');
    expect(said).not.toContain('A1 2027-05-18');
  });

  it('leaves out what is off, and everything without a tub', () => {
    expect(days(question({ chores: [chore(1, { off: true })] }))).toEqual([]);
    expect(days(question({ chores: [chore(1), chore(2, { scope: 'business' })], tubs: [] }))).toEqual([]);
  });
});

describe('putting off and handing over', () => {
  const place = { choreId: 1, tubId: null, rack: 'A' };
  const ticks = [{ ...logged('2027-04-05T08:00:00Z'), ...place }];
  const onA = (more: Partial<DueQuestion>) =>
    dueChores(question({ chores: [chore(1)], ticks, ...more })).find(
      ({ target }) => target.of === 'rack' && target.rack === 'A',
    );

  it('holds until it is done the next time', () => {
    const later = [{ ...logged('2027-04-09T08:00:00Z'), ...place, until: day('2027-04-12'), reason: 'no feed' }];
    const handedOver = [{ ...logged('2027-04-09T08:00:00Z'), ...place, userId: 'alder' }];
    expect(onA({ later, handedOver })).toMatchObject({ dueOn: '2027-04-12', later: 'no feed', handedTo: 'alder' });
    const done = [{ ...logged('2027-04-10T08:00:00Z'), ...place }];
    expect(onA({ later, handedOver, ticks: done })).toMatchObject({ dueOn: '2027-04-14', later: null, handedTo: null });
  });

  it('never makes a chore due earlier', () => {
    const later = [{ ...logged('2027-04-06T08:00:00Z'), ...place, until: day('2027-04-07'), reason: 'no feed' }];
    expect(onA({ later })).toMatchObject({ dueOn: '2027-04-09', later: null });
  });

  it('puts off by a seventh of the interval, a day to a week', () => {
    expect([1, 4, 7, 14, 30, 90, 180].map(laterDays)).toEqual([1, 1, 1, 2, 4, 7, 7]);
  });
});
