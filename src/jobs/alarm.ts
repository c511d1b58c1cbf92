import { schedule } from 'node-cron';
import type { Desk } from '../desk/index.ts';
import type { Instant } from '../domain/index.ts';
import { keepPostsFresh } from './freshPosts.ts';
import { greet } from './greeting.ts';
import { nextMoment } from './planner.ts';
import type { JobLog, Posting } from './posting.ts';
import { postFor } from './posts.ts';
import { planQuestion, runDue } from './runDue.ts';
import type { JobNeeds } from './runSlot.ts';

export interface AlarmNeeds {
  readonly desk: Desk;
  readonly publisher: Posting;
  /** The clock that `advanceTo` moves on; null in earnest. */
  readonly demoClock: { setTo(to: Instant): void } | null;
  readonly log: JobLog;
}

export interface Jobs {
  /** Moves the demonstration's clock on, step by step through everything that falls due on the way. Throws without such a clock. */
  advanceTo(to: Instant): Promise<{ readonly posts: number }>;
  /** Something may have been logged: the posts of today that speak of it are brought up to date soon. */
  worked(): void;
  /** No new run begins; resolves when the running one is done. */
  stop(): Promise<void>;
}

/** Looks once a minute, and now at the start, for what is due; never two runs at a time. */
export function startJobs({ desk, publisher, demoClock, log }: AlarmNeeds): Jobs {
  const needs: JobNeeds = { desk, posting: publisher, log, postOf: (slot, late) => postFor(desk, slot, late) };
  const turns = makeTurns();
  const fresh = keepPostsFresh({ desk, posting: publisher, log });
  const tick = (): Promise<unknown> =>
    turns.isBusy() ? Promise.resolve() : turns.take(() => runDue(desk.now(), needs));
  const onTick = (): void => {
    tick().catch((error: unknown) => log.error({ err: error }, 'looking for what is due broke'));
  };
  const alarm = schedule('* * * * *', onTick);
  turns
    .take(async () => {
      await greet(needs);
      await runDue(desk.now(), needs);
    })
    .catch((error: unknown) => log.error({ err: error }, 'the first look for what is due broke'));
  return {
    advanceTo: (to) =>
      turns.take(() => {
        if (demoClock === null) throw new Error('only the clock of a demonstration can be put on');
        return advance(to, needs, demoClock, turns.isStopped);
      }),
    worked: fresh.worked,
    async stop() {
      await alarm.destroy();
      await turns.stop();
      await fresh.stop();
    },
  };
}

/** Puts the clock on to `to`, stopping wherever something falls due. */
export async function advance(
  to: Instant,
  needs: JobNeeds,
  clock: { setTo(to: Instant): void },
  isStopped: () => boolean = () => false,
): Promise<{ readonly posts: number }> {
  const { desk } = needs;
  let posts = 0;
  for (let at: Instant | null = desk.now(); at !== null && !isStopped(); ) {
    at = nextMoment(planQuestion(desk, desk.now()), to);
    clock.setTo(at ?? to);
    posts += (await runDue(desk.now(), needs)).posts;
  }
  return { posts };
}

/** Work done one after another. */
function makeTurns() {
  let last: Promise<unknown> = Promise.resolve();
  let waiting = 0;
  let stopped = false;
  return {
    isBusy: (): boolean => waiting > 0,
    isStopped: (): boolean => stopped,
    async take<T>(work: () => Promise<T>): Promise<T> {
      waiting += 1;
      const own = last.then(() => {
        if (stopped) throw new Error('the jobs are stopped');
        return work();
      });
      // Whoever gave the work hears of its failure; the next in line only waits for its end.
      last = own
        .catch(() => undefined)
        .finally(() => {
          waiting -= 1;
        });
      return own;
    },
    async stop(): Promise<void> {
      stopped = true;
      await last;
    },
  };
}
