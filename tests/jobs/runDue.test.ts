import { afterEach, describe, expect, it } from 'vitest';
import type { Instant, LocalDay } from '../../src/domain/index.ts';
import { runDue } from '../../src/jobs/runDue.ts';
import type { JobNeeds } from '../../src/jobs/runSlot.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';
import { makeChannel, silentLog } from './channel.ts';

const opened: TestDesk[] = [];
afterEach(() => {
  for (const test of opened.splice(0)) test.close();
});

/** A business first started on Monday 12 April 2027 at 20:00 in Amsterdam. */
function started(): TestDesk {
  const test = deskAt('2027-04-12T18:00:00Z');
  test.desk.store.settings.startedAt(test.desk.now());
  opened.push(test);
  return test;
}

const needsOf = ({ desk }: TestDesk, channel: ReturnType<typeof makeChannel>): JobNeeds => ({
  desk,
  posting: channel.posting,
  postOf: ({ job, day }) => (job === 'season' ? null : { card: { title: `${job} ${day}` } }),
  log: silentLog,
});

const stateOf = (
  { desk }: TestDesk,
  job: 'morning' | 'evening' | 'season' | 'backup',
  day: string,
): string | undefined => desk.store.jobRuns.ofDay(job, day as LocalDay)?.state;

describe('the ledger', () => {
  it('runs each slot once however often it is looked at', async () => {
    const test = started();
    const channel = makeChannel();
    const needs = needsOf(test, channel);
    test.advance({ hours: 12 });
    await runDue(test.desk.now(), needs);
    await runDue(test.desk.now(), needs);
    test.advance({ minutes: 1 });
    await runDue(test.desk.now(), needs);
    expect(channel.keys()).toEqual(['morning-2027-04-13']);
    expect(stateOf(test, 'morning', '2027-04-13')).toBe('sent');
    expect(stateOf(test, 'season', '2027-04-13')).toBe('skipped');
    expect(test.desk.store.backups.names()).toEqual(['berried-2027-04-13.db']);
  });

  it.each(['sent without an answer', 'lost without an answer'] as const)(
    'looks before it posts again: %s',
    async (fate) => {
      const test = started();
      const channel = makeChannel([fate]);
      const needs = needsOf(test, channel);
      test.advance({ hours: 12 });
      await runDue(test.desk.now(), needs);
      expect(stateOf(test, 'morning', '2027-04-13')).toBe('claimed');

      channel.reach.looking = false;
      test.advance({ minutes: 1 });
      await runDue(test.desk.now(), needs);
      expect(stateOf(test, 'morning', '2027-04-13')).toBe('claimed');

      channel.reach.looking = true;
      test.advance({ minutes: 1 });
      await runDue(test.desk.now(), needs);
      expect(stateOf(test, 'morning', '2027-04-13')).toBe('sent');
      expect(channel.keys()).toEqual(['morning-2027-04-13']);
    },
  );

  it('folds a claimed post that never arrived once its moment is past', async () => {
    const test = started();
    const channel = makeChannel(['lost without an answer']);
    const needs = needsOf(test, channel);
    test.advance({ hours: 12 });
    await runDue(test.desk.now(), needs);
    test.advance({ hours: 8 });
    await runDue(test.desk.now(), needs);
    expect(stateOf(test, 'morning', '2027-04-13')).toBe('folded');
    expect(channel.keys()).toEqual([]);
  });

  it('goes on with the next job when one breaks, and tries it again', async () => {
    const test = started();
    const channel = makeChannel();
    const needs = needsOf(test, channel);
    let breaks = true;
    const postOf: JobNeeds['postOf'] = (slot, late) => {
      if (breaks && slot.job === 'morning') throw new Error('a bug');
      return slot.job === 'season' ? { card: { title: 'season' } } : needs.postOf(slot, late);
    };
    test.advance({ hours: 12 });
    await runDue(test.desk.now(), { ...needs, postOf });
    expect(channel.keys()).toEqual(['season-2027-04-13']);
    breaks = false;
    await runDue(test.desk.now(), { ...needs, postOf });
    expect(channel.keys()).toEqual(['season-2027-04-13', 'morning-2027-04-13']);
  });

  it('says how late a post is, and folds the morning into the evening', async () => {
    const test = started();
    const channel = makeChannel();
    const late: string[] = [];
    const needs: JobNeeds = {
      ...needsOf(test, channel),
      postOf: ({ job, day }, minutes) => {
        late.push(`${job} ${day} ${minutes}`);
        return job === 'season' ? null : { card: { title: job } };
      },
    };
    test.advance({ hours: 12, minutes: 10 });
    await runDue(test.desk.now(), needs);
    expect(late).toEqual(['morning 2027-04-13 40', 'season 2027-04-13 40']);
    test.advance({ days: 1, hours: 10 });
    await runDue(test.desk.now(), needs);
    expect(stateOf(test, 'evening', '2027-04-13')).toBe('folded');
    expect(stateOf(test, 'morning', '2027-04-14')).toBe('folded');
    expect(channel.keys()).toEqual(['morning-2027-04-13', 'evening-2027-04-14']);
  });
});

describe('at night', () => {
  it('a post comes without a sound, and calls nobody', async () => {
    const test = started();
    const channel = makeChannel();
    const needs: JobNeeds = {
      ...needsOf(test, channel),
      postOf: ({ job }) => (job === 'season' ? null : { card: { title: job }, mention: ['user-wren'] }),
    };
    test.advance({ hours: 23 });
    await runDue(test.desk.now(), needs);
    test.advance({ hours: 28 });
    await runDue(test.desk.now(), needs);
    expect(channel.messages.map(({ key, isQuiet, mention }) => [key, isQuiet, mention])).toEqual([
      ['evening-2027-04-13', false, ['user-wren']],
      ['evening-2027-04-14', true, []],
    ]);
  });
});

/** The process is gone: nothing after this runs. */
class Killed extends Error {}

/** Needs whose writes and posts count down to a kill, before or after the one that is meant. */
function killing(needs: JobNeeds, at: number): JobNeeds {
  let left = at;
  const tick = (): void => {
    left -= 1;
    if (left === 0) throw new Killed();
  };
  const around =
    <A extends unknown[], R>(work: (...args: A) => R) =>
    (...args: A): R => {
      tick();
      const result = work(...args);
      tick();
      return result;
    };
  const { jobRuns } = needs.desk.store;
  return {
    ...needs,
    desk: {
      ...needs.desk,
      store: {
        ...needs.desk.store,
        jobRuns: {
          ...jobRuns,
          claim: around(jobRuns.claim),
          settle: around(jobRuns.settle),
          pass: around(jobRuns.pass),
        },
      },
    },
    posting: {
      findPost: needs.posting.findPost,
      edit: needs.posting.edit,
      publish: async (card, options) => {
        tick();
        const sent = await needs.posting.publish(card, options);
        tick();
        return sent;
      },
    },
    log: {
      ...silentLog,
      error: ({ err }: { err?: unknown }) => {
        if (err instanceof Killed) throw err;
      },
    },
  };
}

describe('killed at every write and every post', () => {
  it.each(Array.from({ length: 24 }, (_, index) => index + 1))('leaves each post once: at step %i', async (step) => {
    const test = started();
    const channel = makeChannel();
    const needs = needsOf(test, channel);
    const sunday = '2027-04-18T18:00:00Z' as Instant;
    test.advance({ days: 6 });
    expect(test.desk.now() >= sunday.slice(0, 19)).toBe(true);
    await runDue(test.desk.now(), killing(needs, step)).catch((error: unknown) => {
      if (!(error instanceof Killed)) throw error;
    });
    test.advance({ minutes: 3 });
    await runDue(test.desk.now(), needs);
    expect(channel.keys().sort()).toEqual(['evening-2027-04-18', 'weekly-2027-04-18']);
    const open = test.desk.store.jobRuns.since('2027-04-12' as LocalDay).filter(({ state }) => state === 'claimed');
    expect(open).toEqual([]);
    expect(test.desk.store.jobRuns.since('2027-04-12' as LocalDay)).toHaveLength(6 * 4 + 1);
  });
});
