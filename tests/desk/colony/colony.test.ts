import { afterEach, describe, expect, it } from 'vitest';
import { colonyNow, colonySlices, membersOf } from '../../../src/desk/colony/colony.ts';
import { tempsOf } from '../../../src/desk/colony/temps.ts';
import {
  addTubs,
  businessOf,
  logCount,
  logLoss,
  noteReading,
  setLine,
  tubsInUse,
  undo,
} from '../../../src/desk/index.ts';
import { addDays, day, type Instant, isKept } from '../../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { taken } from '../../support/sellingDesk.ts';

const open: TestDesk[] = [];
afterEach(() => {
  for (const bench of open.splice(0)) bench.close();
});

function rack(instant = '2027-04-13T10:00:00Z', zone = 'Europe/Amsterdam'): TestDesk {
  const bench = deskAt(instant, { zone });
  open.push(bench);
  taken(setLine(bench.desk, bench.by('wren'), { line: 'orange' }));
  taken(addTubs(bench.desk, bench.by('wren'), { names: ['A1', 'A2'], line: 'orange', litres: 25 }));
  return bench;
}

const tubOf = ({ desk }: TestDesk, name = 'A1') => {
  const found = tubsInUse(desk).find((tub) => tub.name === name);
  if (found === undefined) throw new Error(`no tub ${name}`);
  return found;
};
const read = ({ desk, by }: TestDesk, tempC: number, at?: string, tub = 'A1') =>
  taken(noteReading(desk, by('wren'), { tub, values: { tempC }, at: at as Instant | undefined }));
const count = ({ desk, by }: TestDesk, saleable: number, at?: string) =>
  taken(logCount(desk, by('wren'), { tub: 'A1', saleable, method: 'full', at: at as Instant | undefined }));
const now = (bench: TestDesk) => [...(membersOf(colonyNow(bench.desk, businessOf(bench.desk), tubOf(bench))) ?? [])];

describe('the temperatures of a tub', () => {
  const of = (bench: TestDesk, on: string, tub = 'A1') =>
    tempsOf(bench.desk, businessOf(bench.desk)).of(tubOf(bench, tub))(day(on));

  it('are those that were read, and the curve of the year between', () => {
    const bench = rack();
    read(bench, 24, '2027-04-10T10:00:00.000Z');
    expect(of(bench, '2027-04-10').tempC).toBeCloseTo(24, 0);
    expect(of(bench, '2027-07-25').tempC).toBeGreaterThan(of(bench, '2027-01-25').tempC);
  });

  it('are the other way round in the south, by the summer time of the zone', () => {
    const south = rack('2027-04-13T10:00:00Z', 'Australia/Adelaide');
    expect(of(south, '2027-07-25').tempC).toBeLessThan(of(south, '2027-01-25').tempC);
  });

  it('of days past are not changed by what is read later', () => {
    const bench = rack('2027-06-13T10:00:00Z');
    read(bench, 19, '2027-05-02T10:00:00.000Z');
    read(bench, 21, '2027-05-12T10:00:00.000Z', 'A2');
    const days = ['2027-05-01', '2027-05-20', '2027-06-10'];
    const before = days.map((on) => of(bench, on));
    read(bench, 27);
    read(bench, 28, undefined, 'A2');
    expect(days.map((on) => of(bench, on))).toEqual(before);
    expect(of(bench, '2027-06-13').tempC).toBeGreaterThan(25);
  });
});

describe('the colony of a tub', () => {
  it('is not there before the first count', () => {
    const bench = rack();
    expect(colonyNow(bench.desk, businessOf(bench.desk), tubOf(bench)).colony).toBeNull();
  });

  it('goes on from kept snapshots to the same members, bit for bit, as from the facts alone', () => {
    const [kept, anew] = [rack(), rack()];
    for (const bench of [kept, anew]) {
      count(bench, 40);
      for (let week = 0; week < 40; week += 1) {
        bench.advance({ days: 7 });
        if (week % 3 === 0) read(bench, 18 + (week % 7));
        if (week % 13 === 5) count(bench, 40 + week);
        if (bench === kept) now(bench);
      }
    }
    expect(now(kept)).toEqual(now(anew));
    const days = kept.desk.store.colonies.days(tubOf(kept).id).map((one) => one.day);
    expect(days.length).toBeGreaterThan(10);
    expect(days.length).toBeLessThan(30);
    const today = addDays(day('2027-04-13'), 280);
    expect(days.filter((one) => one !== today && !isKept(one, today)).length).toBeLessThanOrEqual(1);
  });

  it('takes a fact dated back, and forgets one that is undone, as if it had always been so', () => {
    const [late, early] = [rack(), rack()];
    count(early, 60);
    taken(logLoss(early.desk, early.by('wren'), { tub: 'A1', number: 9 }));
    count(late, 60);
    now(late);
    for (const bench of [late, early]) bench.advance({ days: 30 });
    now(late);
    const at = '2027-04-13T10:00:00.000Z' as Instant;
    const loss = taken(logLoss(late.desk, late.by('wren'), { tub: 'A1', number: 9, at }));
    expect(now(late)).toEqual(now(early));
    const without = rack();
    count(without, 60);
    without.advance({ days: 30 });
    taken(undo(late.desk, late.by('wren'), true, loss.entryId));
    expect(now(late)).toEqual(now(without));
  });

  it('is reckoned anew where a temperature of the past is logged late', () => {
    const [late, early] = [rack(), rack()];
    for (const bench of [late, early]) count(bench, 40);
    read(early, 27, '2027-04-12T10:00:00.000Z');
    for (const bench of [late, early]) {
      bench.advance({ days: 20 });
      now(bench);
    }
    const before = now(late);
    read(late, 27, '2027-04-12T10:00:00.000Z');
    expect(now(late)).not.toEqual(before);
    expect(now(late)).toEqual(now(early));
  });

  it('comes up to date in slices to the same members', () => {
    const [sliced, atOnce] = [rack(), rack()];
    for (const bench of [sliced, atOnce]) {
      count(bench, 40);
      bench.advance({ days: 450 });
      count(bench, 55);
      bench.advance({ days: 300 });
    }
    // 750 days in slices of 200, the last of them up to today.
    sliced.desk.store.colonies.clear();
    expect([...colonySlices(sliced.desk)]).toHaveLength(4);
    expect(now(sliced)).toEqual(now(atOnce));
    sliced.advance({ days: 1 });
    expect([...colonySlices(sliced.desk)]).toHaveLength(1);
  });

  it('holds after the file of snapshots is emptied', () => {
    const bench = rack();
    count(bench, 40);
    bench.advance({ days: 100 });
    const before = now(bench);
    bench.desk.store.colonies.clear();
    count(bench, 40, '2027-04-13T09:00:00.000Z');
    const [entry] = bench.desk.store.entries.latest(1);
    taken(undo(bench.desk, bench.by('wren'), true, entry?.id ?? 0));
    expect(now(bench)).toEqual(before);
  });
});
