import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Desk, missedPosts, setBusiness } from '../../src/desk/index.ts';
import {
  addDays,
  dayOf,
  hourMs,
  type Instant,
  instantAt,
  instantOf,
  type JobRun,
  minuteMs,
  msOf,
  plusMs,
  type WallTime,
} from '../../src/domain/index.ts';
import type { Slot } from '../../src/jobs/planner.ts';
import type { Post, Posting } from '../../src/jobs/posting.ts';
import { runDue } from '../../src/jobs/runDue.ts';
import type { JobNeeds } from '../../src/jobs/runSlot.ts';
import { openStore, type Store } from '../../src/store/open.ts';
import { silentLog } from './channel.ts';

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

/** A post as it stands in the channel, with the left-out posts that it speaks of. */
export interface YearPost {
  readonly key: string;
  readonly at: Instant;
  readonly lateMinutes: number;
  readonly told: readonly string[];
}

export interface SimulatedYear {
  readonly zone: string;
  readonly startedAt: Instant;
  readonly end: Instant;
  readonly posts: readonly YearPost[];
  readonly ledger: readonly JobRun[];
  /** How often the process was killed, by the write or post at which it was. */
  readonly kills: ReadonlyMap<string, number>;
  readonly daysOff: number;
}

/** When the posts come by the settings of the first evening, told without the planner. */
const times = ['03:30', '07:30', '17:00', '18:00'] as WallTime[];

/** The first of those moments after now, on this local day or the next, ms. */
function nextMoment(now: Instant, zone: string): number {
  const today = dayOf(now, zone);
  const moments = [today, addDays(today, 1)].flatMap((day) => times.map((time) => msOf(instantAt(day, time, zone))));
  return moments.find((moment) => moment > msOf(now)) ?? msOf(now) + hourMs;
}

/** Thousands of writes that each wait for a disk take most of the time: in memory, where the system has files there. */
const quickest = existsSync('/dev/shm') ? '/dev/shm' : tmpdir();

/** The process is gone: nothing after this runs. */
class Killed extends Error {}

/** Chances, each time. */
const chances = {
  killed: 0.008,
  killedAgain: 0.2,
  answerLost: 0.02,
  postLost: 0.02,
  cannotLook: 0.05,
  clockSetBack: 0.01,
} as const;

/** How long the bot is off after a kill: mostly it is started again at once, else it is off for hours, or for weeks. */
function timeOffMs(random: () => number): number {
  const kind = random();
  if (kind < 0.6) return random() * 3 * minuteMs;
  return kind < 0.93 ? random() * 30 * hourMs : random() * 20 * 24 * hourMs;
}

/**
 * A year of the real ledger on a real database: the bot is killed before or after any write and any post, is off for minutes to weeks,
 * answers of the service get lost, posts too, and the machine's clock is set back now and then.
 */
export async function simulateYear(zone: string, seed: number): Promise<SimulatedYear> {
  const random = numbersFrom(seed);
  const folder = mkdtempSync(join(quickest, 'berried-'));
  const startedAt = instantOf(new Date('2027-01-15T09:13:00.000Z'));
  const end = plusMs(startedAt, 366 * 24 * hourMs);
  const kills = new Map<string, number>();
  const posts: YearPost[] = [];
  let now = startedAt;
  let offMs = 0;

  /** A moment at which the process may be killed. */
  const mayDie = (where: string): void => {
    // What is seldom done is where it dies more often, so that a year holds some of each.
    if (random() >= (where.endsWith('claim again') ? chances.killedAgain : chances.killed)) return;
    kills.set(where, (kills.get(where) ?? 0) + 1);
    throw new Killed();
  };
  const around =
    <A extends unknown[], R>(name: string, work: (...args: A) => R) =>
    (...args: A): R => {
      mayDie(`before ${name}`);
      const result = work(...args);
      mayDie(`after ${name}`);
      return result;
    };

  /** Everything of a process: it ends with a kill, and another one finds what is on the disk. */
  function start(): { readonly store: Store; readonly needs: JobNeeds } {
    const store = openStore(folder);
    const { jobRuns, rota } = store;
    const desk: Desk = {
      now: () => now,
      machineZone: zone,
      holidays: () => [],
      isRegion: () => true,
      store: {
        ...store,
        jobRuns: {
          ...jobRuns,
          claim: around('claim', jobRuns.claim),
          settle: around('settle', jobRuns.settle),
          pass: around('pass', jobRuns.pass),
          claimAgain: around('claim again', jobRuns.claimAgain),
        },
        rota: { ...rota, tell: around('tell', rota.tell) },
        write: around('write', store.write) as Store['write'],
        // A copy of the file is the affair of the tests of backups.
        backups: { ...store.backups, make: async (day) => ({ file: `${day}.db`, bytes: 1, entries: 0, lastAt: null }) },
      },
    };
    return { store, needs: { desk, posting, log: deadLog, postOf: (slot, late) => postOf(desk, slot, late) } };
  }

  const posting: Posting = {
    publish: async (card, { key }) => {
      mayDie('before publish');
      const isLost = random() < chances.postLost;
      if (!isLost) posts.push({ ...(JSON.parse(card.title) as Omit<YearPost, 'key' | 'at'>), key, at: now });
      mayDie('after publish');
      return isLost || random() < chances.answerLost
        ? { outcome: 'unknown', cause: 'socket closed' }
        : { outcome: 'sent', messageId: key };
    },
    findPost: async (key) => {
      if (random() < chances.cannotLook) return { outcome: 'unknown', cause: 'no connection' };
      return posts.some((post) => post.key === key) ? { outcome: 'found', messageId: key } : { outcome: 'absent' };
    },
    edit: async () => ({ outcome: 'edited' }),
  };

  let running = start();
  running.store.settings.startedAt(now);
  setBusiness(running.needs.desk, { userId: 'wren', name: 'wren', key: 'zone' }, { zone });
  while (now < end) {
    try {
      await runDue(now, running.needs);
    } catch (error) {
      if (!(error instanceof Killed)) throw error;
      running.store.close();
      const off = timeOffMs(random);
      offMs += off;
      now = plusMs(now, Math.round(off));
      running = start();
      continue;
    }
    if (random() < chances.clockSetBack) now = plusMs(now, -Math.round(random() * 3 * hourMs));
    // Mostly to within two minutes after the next moment of a post, else to any moment before it.
    const waits = nextMoment(now, zone) - msOf(now);
    now = plusMs(now, Math.round(random() < 0.1 ? random() * waits : waits + random() * 2 * minuteMs));
  }
  const ledger = running.store.jobRuns.since('2027-01-01' as JobRun['day']);
  running.store.close();
  rmSync(folder, { recursive: true, force: true });
  return { zone, startedAt, end, posts, ledger, kills, daysOff: offMs / (24 * hourMs) };
}

/** Kills come through; anything else that breaks a job is a fault of the test. */
const deadLog: JobNeeds['log'] = {
  ...silentLog,
  error: ({ err }: { err?: unknown }) => {
    throw err;
  },
};

/** A season notice on the first of a month, else nothing: as the real one, it is often needless. */
function postOf(desk: Desk, { job, day }: Slot, lateMinutes: number): Post | null {
  if (job === 'backup' || (job === 'season' && !day.endsWith('-01'))) return null;
  const missed = job === 'season' ? null : missedPosts(desk, job, day);
  const folded = missed === null ? [] : desk.store.jobRuns.foldedBefore(job, day);
  return { card: { title: JSON.stringify({ lateMinutes, told: folded.map((run) => `${run.job}-${run.day}`) }) } };
}
