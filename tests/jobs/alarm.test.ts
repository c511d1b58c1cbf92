import { afterEach, describe, expect, it } from 'vitest';
import type { Instant } from '../../src/domain/index.ts';
import { advance, startJobs } from '../../src/jobs/alarm.ts';
import type { JobNeeds } from '../../src/jobs/runSlot.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';
import { makeChannel, silentLog } from './channel.ts';

const opened: TestDesk[] = [];
afterEach(() => {
  for (const test of opened.splice(0)) test.close();
});

function started(instant: string, zone?: string): TestDesk {
  const test = deskAt(instant, zone === undefined ? {} : { zone });
  test.desk.store.settings.startedAt(test.desk.now());
  opened.push(test);
  return test;
}

const clockOf = (test: TestDesk) => ({
  setTo: (to: Instant) => {
    test.advance({ minutes: (Date.parse(to) - Date.parse(test.desk.now())) / 60_000 });
  },
});

const needsOf = ({ desk }: TestDesk, channel: ReturnType<typeof makeChannel>): JobNeeds => ({
  desk,
  posting: channel.posting,
  postOf: ({ job }) => (job === 'season' ? null : { card: { title: job } }),
  log: silentLog,
});

describe('putting the clock on', () => {
  it('stops at everything that falls due on the way, on time', async () => {
    const test = started('2027-03-26T20:00:00Z');
    const channel = makeChannel();
    const late: number[] = [];
    const needs = needsOf(test, channel);
    const counting: JobNeeds = {
      ...needs,
      postOf: (slot, minutes) => {
        late.push(minutes);
        return needs.postOf(slot, minutes);
      },
    };
    const to = '2027-03-29T10:00:00.000Z' as Instant;
    const { posts } = await advance(to, counting, clockOf(test));
    expect(channel.keys()).toEqual([
      'morning-2027-03-27',
      'evening-2027-03-27',
      'morning-2027-03-28',
      'weekly-2027-03-28',
      'evening-2027-03-28',
      'morning-2027-03-29',
    ]);
    expect(posts).toBe(6);
    expect(Math.max(...late)).toBe(0);
    expect(test.desk.now()).toBe(to);
  });

  it('gets past a post that cannot be sent', async () => {
    const test = started('2027-04-12T18:00:00Z');
    const channel = makeChannel(['lost without an answer']);
    await advance('2027-04-13T17:00:00.000Z' as Instant, needsOf(test, channel), clockOf(test));
    expect(channel.keys()).toEqual(['evening-2027-04-13']);
    expect(test.desk.store.jobRuns.ofDay('morning', '2027-04-13' as never)?.state).toBe('folded');
  });
});

describe('the jobs once started', () => {
  it('greet an empty channel once', async () => {
    const test = started('2027-04-12T18:00:00Z');
    const channel = makeChannel();
    for (const _ of ['first start', 'restart']) {
      const jobs = startJobs({ desk: test.desk, publisher: channel.posting, demoClock: clockOf(test), log: silentLog });
      await jobs.stop();
    }
    expect(channel.keys()).toEqual(['welcome']);
  });

  it('catch up at once, advance one at a time, and stop', async () => {
    const test = started('2027-04-12T18:00:00Z');
    const channel = makeChannel();
    test.advance({ hours: 12 });
    const jobs = startJobs({ desk: test.desk, publisher: channel.posting, demoClock: clockOf(test), log: silentLog });
    const both = await Promise.all([
      jobs.advanceTo('2027-04-14T06:00:00.000Z' as Instant),
      jobs.advanceTo('2027-04-15T06:00:00.000Z' as Instant),
    ]);
    await jobs.stop();
    expect(channel.keys()).toEqual(['welcome', 'morning-2027-04-13', 'morning-2027-04-14', 'morning-2027-04-15']);
    expect(both.map(({ posts }) => posts)).toEqual([1, 1]);
    expect(channel.messages[1]?.title).toBe('Morning, Tue 13 Apr (30 minutes late): nothing to do');
    await expect(jobs.advanceTo('2027-04-16T06:00:00.000Z' as Instant)).rejects.toThrow('stopped');
  });
});
