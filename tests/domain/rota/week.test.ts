import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  type DueChore,
  day,
  daysBetween,
  isAway,
  type Partner,
  planWeek,
  type RotaTask,
  sharesOf,
} from '../../../src/domain/index.ts';
import { dueChore, from, person } from '../../support/rotaWorld.ts';

const due = dueChore;
const partner = person;

const plan = (chores: readonly DueChore[], partners: readonly Partner[], days = 7): RotaTask[] => [
  ...planWeek({ due: chores, from, days, partners, done: [], told: [] }).tasks,
];

const minutesOf = (tasks: readonly RotaTask[], who: string): number =>
  tasks.filter(({ userId }) => userId === who).reduce((sum, task) => sum + task.due.chore.minutes, 0);

const wren = partner('wren');
const alder = partner('alder');

describe('shares', () => {
  it('are equal parts where none is set, and of what the others leave', () => {
    expect([...sharesOf([wren, alder]).values()]).toEqual([0.5, 0.5]);
    expect([...sharesOf([partner('wren', { sharePercent: 70 }), alder]).values()]).toEqual([0.7, 0.3]);
    expect([...sharesOf([partner('a', { sharePercent: 90 }), partner('b', { sharePercent: 90 })]).values()]).toEqual([
      0.5, 0.5,
    ]);
    expect([...sharesOf([partner('a', { sharePercent: 0 })]).values()]).toEqual([1]);
  });
});

describe('who does it', () => {
  const chores = Array.from({ length: 20 }, (_, index) => due(index + 1, index % 7));

  it('splits the minutes of the week by share, to within a chore', () => {
    const even = plan(chores, [wren, alder]);
    expect(Math.abs(minutesOf(even, 'wren') - minutesOf(even, 'alder'))).toBeLessThanOrEqual(6);
    const uneven = plan(chores, [partner('wren', { sharePercent: 75 }), alder]);
    expect(Math.abs(minutesOf(uneven, 'wren') - 90)).toBeLessThanOrEqual(6);
  });

  it('leaves a chore with the partner it belongs to, and one handed over once', () => {
    const own = due(1, 0, { userId: 'alder', everyDays: 1 });
    expect(plan([own], [wren, alder]).every(({ userId }) => userId === 'alder')).toBe(true);
    const handed = due(1, 0, { userId: 'alder', to: 'wren', everyDays: 1 });
    expect(
      plan([handed], [wren, alder])
        .map(({ userId }) => userId)
        .slice(0, 3),
    ).toEqual(['wren', 'alder', 'alder']);
  });

  it('gives nobody what they never do, and nothing to who is away', () => {
    const never = plan(chores, [partner('wren', { never: ['Chore 1', 'chore2'] }), alder]);
    expect(never.filter(({ due: { chore } }) => chore.id <= 2).every(({ userId }) => userId === 'alder')).toBe(true);
    const away = plan(chores, [partner('wren', { awayFrom: day('2027-04-13'), awayTo: day('2027-04-15') }), alder]);
    const gone = away.filter(({ on }) => on >= '2027-04-13' && on <= '2027-04-15');
    expect(gone.length).toBeGreaterThan(0);
    expect(gone.every(({ userId }) => userId === 'alder')).toBe(true);
  });

  it('does not let the one who comes back make up for the days away', () => {
    const daily = [1, 2, 3, 4].map((id) => due(id, 0, { everyDays: 1 }));
    const tasks = plan(daily, [partner('wren', { awayTo: day('2027-04-16') }), alder]);
    const last = tasks.filter(({ on }) => on === '2027-04-18');
    expect(minutesOf(last, 'wren')).toBe(12);
  });

  it('says so where nobody is there', () => {
    const tasks = plan([due(1, 0)], [partner('wren', { awayFrom: day('2027-04-01') })]);
    expect(tasks.map(({ userId }) => userId)).toEqual([null]);
    expect(plan([due(1, 0)], []).map(({ userId }) => userId)).toEqual([null]);
  });

  it('gives a partner without a share nothing while another is there', () => {
    const tasks = plan(chores, [partner('wren', { sharePercent: 0 }), alder]);
    expect(minutesOf(tasks, 'wren')).toBe(0);
    const alone = plan(chores, [
      partner('wren', { sharePercent: 0 }),
      partner('alder', { awayFrom: day('2027-04-01') }),
    ]);
    expect(minutesOf(alone, 'wren')).toBe(120);
  });

  it('keeps a partner to one end of the rack', () => {
    const tasks = plan(
      [1, 2, 3, 4, 5, 6].map((id) => due(id, 0)),
      [wren, alder],
    );
    expect(tasks.map(({ userId }) => userId)).toEqual(['wren', 'wren', 'wren', 'alder', 'alder', 'alder']);
  });
});

describe('on which day', () => {
  it('evens the days without putting anything off', () => {
    const heap = Array.from({ length: 14 }, (_, index) => due(index + 1, 6, { everyDays: 60 }));
    const tasks = plan(heap, [wren]);
    const perDay = Array.from({ length: 7 }, (_, at) => tasks.filter(({ on }) => on === addDays(from, at)).length);
    expect(perDay).toEqual([2, 2, 2, 2, 2, 2, 2]);
  });

  it('never brings a water change forward: two within the interval swap too much', () => {
    const heap = Array.from({ length: 10 }, (_, index) => due(index + 1, 3, { act: 'change', everyDays: 7 }));
    expect(plan(heap, [wren]).every(({ on }) => on === addDays(from, 3))).toBe(true);
  });

  it('leaves what was put off where it was put', () => {
    const heap = Array.from({ length: 10 }, (_, index) => ({
      ...due(index + 1, 6, { everyDays: 60 }),
      later: 'no time',
    }));
    expect(plan(heap, [wren]).every(({ on }) => on === addDays(from, 6))).toBe(true);
  });
});

const anyChores = fc.array(
  fc.record({
    inDays: fc.integer({ min: -20, max: 20 }),
    everyDays: fc.integer({ min: 1, max: 90 }),
    minutes: fc.integer({ min: 1, max: 30 }),
    rack: fc.constantFrom('A', 'B', 'C'),
    act: fc.constantFrom('own' as const, 'change' as const),
  }),
  { maxLength: 60 },
);

const anyPartners = fc
  .array(
    fc.record({
      sharePercent: fc.option(fc.integer({ min: 0, max: 100 })),
      awayFrom: fc.option(fc.integer({ min: 0, max: 13 })),
      never: fc.subarray(['chore 1', 'chore 2', 'chore 3']),
    }),
    { minLength: 1, maxLength: 4 },
  )
  .map((given) =>
    given.map(({ awayFrom, ...more }, index) =>
      partner(`p${index}`, {
        ...more,
        awayFrom: awayFrom === null ? null : addDays(from, awayFrom),
        awayTo: awayFrom === null ? null : addDays(from, awayFrom + 2),
      }),
    ),
  );

describe('any week', () => {
  it('breaks no interval, plans nothing late, and is the same when asked again', () => {
    fc.assert(
      fc.property(anyChores, anyPartners, (given, partners) => {
        const chores = given.map(({ inDays, ...more }, index) => due(index + 1, inDays, more));
        const tasks = plan(chores, partners, 14);
        for (const one of chores) {
          const own = tasks.filter(({ due: { chore } }) => chore.id === one.chore.id).map(({ on }) => on);
          const [, first = from] = [from, one.dueOn].sort();
          if (daysBetween(from, first) < 14) expect((own[0] ?? '9') <= first).toBe(true);
          for (const [index, on] of own.entries()) {
            const next = own[index + 1] ?? addDays(from, 14);
            expect(daysBetween(on, next)).toBeLessThanOrEqual(one.chore.everyDays);
          }
        }
        expect(plan(chores, partners, 14)).toEqual(tasks);
      }),
      { seed: 7, numRuns: 100 },
    );
  });

  it('asks nobody who is away or never does it', () => {
    fc.assert(
      fc.property(anyChores, anyPartners, (given, partners) => {
        const chores = given.map(({ inDays, ...more }, index) => due(index + 1, inDays, more));
        for (const {
          userId,
          on,
          due: { chore },
        } of plan(chores, partners, 14)) {
          const may = partners
            .filter((one) => !isAway(one, on) && !one.never.includes(chore.name))
            .map((one) => one.userId);
          if (userId === null) expect(may).toEqual([]);
          else expect(may).toContain(userId);
        }
      }),
      { seed: 8, numRuns: 100 },
    );
  });
});
