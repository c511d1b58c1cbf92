import { describe, expect, it } from 'vitest';
import {
  addDays,
  dayOf,
  type Instant,
  instantAt,
  type Job,
  type JobRun,
  jobs,
  type LocalDay,
  plusMs,
  type WallTime,
  weekdayOf,
} from '../../src/domain/index.ts';
import { plan, type Schedule } from '../../src/jobs/planner.ts';

const minuteMs = 60_000;
const hourMs = 60 * minuteMs;

/** A small generator with a fixed seed (mulberry32): the same numbers every time. */
function numbersFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

interface Year {
  readonly ledger: ReadonlyMap<string, JobRun>;
  /** How often each key was posted. */
  readonly posted: ReadonlyMap<string, number>;
  readonly startedAt: Instant;
  readonly end: Instant;
}

/** A year of a bot that is restarted at any moment, is off for minutes to weeks, and is killed before or after it posts. */
function simulate(zone: string, seed: number): Year {
  const random = numbersFrom(seed);
  const startedAt = '2027-01-15T09:13:00.000Z' as Instant;
  const end = plusMs(startedAt, 366 * 24 * hourMs);
  const schedule: Schedule = {
    zone,
    morningAt: '07:30' as WallTime,
    eveningAt: '18:00' as WallTime,
    weeklyOn: 7,
    weeklyAt: '17:00' as WallTime,
    weeklySince: null,
  };
  const ledger = new Map<string, JobRun>();
  const posted = new Map<string, number>();
  const write = (job: Job, day: LocalDay, state: JobRun['state'], now: Instant): void => {
    ledger.set(`${job} ${day}`, { job, day, state, claimedAt: now, doneAt: now, messageId: null, note: null });
  };
  const post = (key: string): void => {
    posted.set(key, (posted.get(key) ?? 0) + 1);
  };

  for (let now = startedAt; now < end; ) {
    for (const step of plan({ schedule, ledger: [...ledger.values()], startedAt, now })) {
      const { job, day } = step.slot;
      const key = `${job} ${day}`;
      if (step.do === 'pass') {
        write(job, day, step.as, now);
        continue;
      }
      const isThere = posted.has(key);
      if (step.do === 'check' && (isThere || !step.mayPost)) {
        write(job, day, isThere ? 'sent' : 'folded', now);
        continue;
      }
      write(job, day, 'claimed', now);
      const fate = random();
      if (fate < 0.04) break;
      post(key);
      if (fate < 0.08) break;
      write(job, day, 'sent', now);
    }
    const off = random();
    const pause =
      off < 0.01 ? random() * 21 * 24 * hourMs : off < 0.06 ? random() * 20 * hourMs : random() * 4 * hourMs;
    now = plusMs(now, Math.round(minuteMs + pause));
  }
  return { ledger, posted, startedAt, end };
}

/** Every slot of the year that was past a week before its end, told without the planner. */
function slotsOf(zone: string, { startedAt, end }: Year): string[] {
  const times: Record<Job, string> = {
    backup: '03:30',
    morning: '07:30',
    season: '07:30',
    weekly: '17:00',
    evening: '18:00',
  };
  const slots: string[] = [];
  const last = dayOf(plusMs(end, -30 * 24 * hourMs), zone);
  for (let day = dayOf(startedAt, zone); day <= last; day = addDays(day, 1)) {
    for (const job of jobs) {
      const isOn = job !== 'weekly' || weekdayOf(day) === 7;
      if (isOn && instantAt(day, times[job] as WallTime, zone) >= startedAt) slots.push(`${job} ${day}`);
    }
  }
  return slots;
}

describe.each(['Europe/Amsterdam', 'America/New_York', 'Asia/Kolkata', 'Australia/Lord_Howe', 'Pacific/Auckland'])(
  'a year in %s with restarts, kills and weeks off',
  (zone) => {
    const years = [11, 12].map((seed) => simulate(zone, seed));

    it('accounts for every slot exactly once', () => {
      for (const year of years) {
        const slots = slotsOf(zone, year);
        const open = slots.filter((key) => {
          const state = year.ledger.get(key)?.state;
          return state === undefined || state === 'claimed';
        });
        expect(open).toEqual([]);
        expect(slots.length).toBeGreaterThan(1300);
      }
    });

    it('posts nothing twice, and nothing before the first start', () => {
      for (const year of years) {
        expect([...year.posted].filter(([, times]) => times > 1)).toEqual([]);
        const early = [...year.ledger.keys()].filter((key) => (key.split(' ')[1] ?? '') < dayOf(year.startedAt, zone));
        expect(early).toEqual([]);
      }
    });

    it('calls sent what was posted, and folded or skipped what was not', () => {
      for (const year of years) {
        for (const key of slotsOf(zone, year)) {
          expect(year.ledger.get(key)?.state === 'sent', key).toBe(year.posted.has(key));
        }
        expect([...year.ledger.values()].some(({ state }) => state === 'folded')).toBe(true);
      }
    });
  },
);
