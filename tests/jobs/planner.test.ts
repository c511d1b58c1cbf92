import { describe, expect, it } from 'vitest';
import {
  dayOf,
  type Instant,
  type Job,
  type JobRun,
  type LocalDay,
  timeOf,
  type WallTime,
} from '../../src/domain/index.ts';
import { nextMoment, type PlanQuestion, plan, type Schedule } from '../../src/jobs/planner.ts';

const at = (text: string): Instant => new Date(text).toISOString() as Instant;

const schedule = (more: Partial<Schedule> = {}): Schedule => ({
  zone: 'Europe/Amsterdam',
  morningAt: '07:30' as WallTime,
  eveningAt: '18:00' as WallTime,
  weeklyOn: 7,
  weeklyAt: '17:00' as WallTime,
  weeklySince: null,
  ...more,
});

const run = (job: Job, day: string, state: JobRun['state'], claimedAt = '2027-04-12T00:00:00Z'): JobRun => ({
  job,
  day: day as LocalDay,
  state,
  claimedAt: at(claimedAt),
  doneAt: null,
  messageId: null,
  note: null,
});

/** A business started on Monday 12 April 2027 at noon, everything of that day done. */
const settled = [run('evening', '2027-04-12', 'sent')];

const question = (now: string, more: Partial<PlanQuestion> = {}): PlanQuestion => ({
  schedule: schedule(),
  ledger: settled,
  startedAt: at('2027-04-12T10:00:00Z'),
  now: at(now),
  ...more,
});

const said = (asked: PlanQuestion): string[] =>
  plan(asked).map((step) => {
    const late = step.do === 'pass' ? step.as : `${step.lateMinutes}`;
    return `${step.do} ${step.slot.job} ${step.slot.day} ${late}`;
  });

describe('what is due', () => {
  it('is nothing before the first start', () => {
    expect(said(question('2027-04-12T15:00:00Z', { ledger: [] }))).toEqual([]);
  });

  it('is each job at its wall time, in the order of their moments', () => {
    expect(said(question('2027-04-13T05:29:00Z'))).toEqual(['run backup 2027-04-13 239']);
    expect(said(question('2027-04-13T05:30:00Z'))).toEqual([
      'run backup 2027-04-13 240',
      'run morning 2027-04-13 0',
      'run season 2027-04-13 0',
    ]);
  });

  it('is not what the ledger holds', () => {
    const ledger = [...settled, run('backup', '2027-04-13', 'skipped'), run('morning', '2027-04-13', 'sent')];
    expect(said(question('2027-04-13T05:31:00Z', { ledger }))).toEqual(['run season 2027-04-13 1']);
  });

  it('is the weekly post on its weekday only', () => {
    const steps = said(question('2027-04-18T15:00:00Z')).filter((step) => step.includes('weekly'));
    expect(steps).toEqual(['run weekly 2027-04-18 0']);
  });
});

describe('what is late', () => {
  const about = (job: Job, now: string): string | undefined =>
    said(question(now)).find((step) => step.includes(`${job} 2027-04-13`));

  it('runs a morning post until noon, then folds it', () => {
    expect(about('morning', '2027-04-13T06:10:00Z')).toBe('run morning 2027-04-13 40');
    expect(about('morning', '2027-04-13T09:59:00Z')).toBe('run morning 2027-04-13 269');
    expect(about('morning', '2027-04-13T10:00:00Z')).toBe('pass morning 2027-04-13 folded');
  });

  it('runs an evening post until midnight, then folds it', () => {
    expect(about('evening', '2027-04-13T21:59:00Z')).toBe('run evening 2027-04-13 359');
    expect(about('evening', '2027-04-13T22:00:00Z')).toBe('pass evening 2027-04-13 folded');
  });

  it('runs the weekly post for 24 hours', () => {
    const weekly = (now: string): string[] => said(question(now)).filter((step) => step.includes('weekly'));
    expect(weekly('2027-04-19T14:59:00Z')).toEqual(['run weekly 2027-04-18 1439']);
    expect(weekly('2027-04-19T15:00:00Z')).toEqual(['pass weekly 2027-04-18 folded']);
  });

  it('gives a morning post that is set after noon an hour', () => {
    const late = schedule({ morningAt: '13:00' as WallTime });
    const morning = (now: string): string | undefined =>
      said(question(now, { schedule: late })).find((step) => step.includes('morning 2027-04-13'));
    expect(morning('2027-04-13T11:59:00Z')).toBe('run morning 2027-04-13 59');
    expect(morning('2027-04-13T12:00:00Z')).toBe('pass morning 2027-04-13 folded');
  });

  it('folds all but the newest after weeks', () => {
    const steps = said(question('2027-05-04T06:00:00Z'));
    expect(steps.filter((step) => step.startsWith('run'))).toEqual([
      'run backup 2027-05-04 270',
      'run morning 2027-05-04 30',
      'run season 2027-05-04 30',
    ]);
    expect(steps.filter((step) => step.startsWith('pass morning'))).toHaveLength(21);
    expect(steps.filter((step) => step.startsWith('pass weekly'))).toHaveLength(3);
    expect(steps.filter((step) => step.startsWith('pass backup')).every((step) => step.endsWith('skipped'))).toBe(true);
  });
});

describe('what was claimed and never settled', () => {
  const ledger = [...settled, run('morning', '2027-04-13', 'claimed')];

  it('is looked for, and posted while its moment lasts', () => {
    expect(plan(question('2027-04-13T06:00:00Z', { ledger }))).toContainEqual(
      expect.objectContaining({ do: 'check', mayPost: true }),
    );
    expect(plan(question('2027-04-13T11:00:00Z', { ledger }))).toContainEqual(
      expect.objectContaining({ do: 'check', mayPost: false }),
    );
  });

  it('waits when the clock has gone back before its moment', () => {
    expect(said(question('2027-04-13T05:00:00Z', { ledger }))).toEqual(['run backup 2027-04-13 210']);
  });
});

describe('a clock that jumps', () => {
  const folded = run('morning', '2027-04-14', 'folded', '2027-06-01T00:00:00Z');

  it('forgets what was only folded while it ran ahead', () => {
    const steps = said(question('2027-04-14T06:00:00Z', { ledger: [...settled, folded] }));
    expect(steps).toContain('run morning 2027-04-14 30');
  });

  it('keeps what was posted while it ran ahead', () => {
    const sent = { ...folded, state: 'sent' as const };
    const steps = said(question('2027-04-14T06:00:00Z', { ledger: [...settled, sent] }));
    expect(steps.some((step) => step.includes('morning 2027-04-14'))).toBe(false);
  });
});

describe('settings that change', () => {
  it('miss no week before the new weekday was set', () => {
    const ledger = [...settled, run('weekly', '2027-04-18', 'sent')];
    const now = '2027-04-22T08:00:00Z';
    const wednesday = schedule({ weeklyOn: 3, weeklySince: at('2027-04-22T07:59:00Z') });
    expect(said(question(now, { ledger, schedule: wednesday })).filter((step) => step.includes('weekly'))).toEqual([]);
    const since = schedule({ weeklyOn: 3, weeklySince: at('2027-04-20T07:59:00Z') });
    expect(said(question(now, { ledger, schedule: since })).filter((step) => step.includes('weekly'))).toEqual([
      'run weekly 2027-04-21 1020',
    ]);
  });

  it('post nothing twice on a local day when the zone moves west', () => {
    const ledger = [...settled, run('morning', '2027-04-13', 'sent'), run('evening', '2027-04-13', 'sent')];
    const moved = schedule({ zone: 'America/New_York' });
    const steps = said(
      question('2027-04-13T23:00:00Z', { ledger, schedule: moved, startedAt: at('2027-04-12T12:00:00Z') }),
    );
    expect(steps.filter((step) => /morning|evening/.test(step))).toEqual([]);
  });
});

describe('clock changes', () => {
  it.each([
    ['Europe/Amsterdam', '2027-03-28'],
    ['Europe/Amsterdam', '2027-10-31'],
    ['America/New_York', '2027-03-14'],
    ['America/New_York', '2027-11-07'],
    ['Pacific/Auckland', '2027-04-04'],
    ['Pacific/Auckland', '2027-09-26'],
    ['Australia/Lord_Howe', '2027-04-04'],
    ['Australia/Lord_Howe', '2027-10-03'],
    ['Asia/Kolkata', '2027-04-04'],
  ])('leave the wall times of %s on %s as they are', (zone, day) => {
    const asked = question('2027-12-31T00:00:00Z', {
      schedule: schedule({ zone }),
      startedAt: at('2027-01-01T00:00:00Z'),
    });
    const moments = plan(asked).filter(({ slot }) => slot.day === day);
    const times = moments.map(({ slot }) => `${slot.job} ${dayOf(slot.at, zone)} ${timeOf(slot.at, zone)}`);
    expect(times).toEqual(
      expect.arrayContaining([
        `backup ${day} 03:30`,
        `morning ${day} 07:30`,
        `season ${day} 07:30`,
        `evening ${day} 18:00`,
      ]),
    );
    expect(new Set(times).size).toBe(times.length);
  });
});

describe('the next moment', () => {
  it('is that of the next slot, and none past the end', () => {
    const asked = question('2027-04-13T05:30:00Z');
    expect(nextMoment(asked, at('2027-04-14T00:00:00Z'))).toBe('2027-04-13T16:00:00.000Z');
    expect(nextMoment(asked, at('2027-04-13T15:59:00Z'))).toBeNull();
  });
});
