import { booksVersion, type Desk, type KeptPost, keptPosts } from '../desk/index.ts';
import type { JobLog, Posting } from './posting.ts';
import { keptCard } from './posts.ts';
import { postKey } from './runSlot.ts';

/** Waits before work that may be called off; the machine's time, as the service counts it. */
export type After = (ms: number, work: () => void) => { cancel(): void };

/** Two taps in a row make one edit. */
const soonMs = 1_000;
/** From the end of one edit to the next at least: the service is sparing with edits of old messages. */
const restMs = 5_000;

/** Nothing of this keeps the process from ending. */
const afterMs: After = (ms, work) => {
  const timer = setTimeout(work, ms).unref();
  return { cancel: () => clearTimeout(timer) };
};

interface FreshNeeds {
  readonly desk: Desk;
  readonly posting: Posting;
  readonly log: JobLog;
  readonly after?: After;
}

/**
 * Keeps the posts of today true as things get done, wherever they are logged: some moments after, at most one edit in a few seconds, in
 * which the last state wins.
 */
export function keepPostsFresh({ desk, posting, log, after = afterMs }: FreshNeeds) {
  /** What each message says, by its id. */
  const said = new Map<string, string>();
  let seen = booksVersion(desk);
  let waiting: ReturnType<After> | undefined;
  let editing: Promise<void> = Promise.resolve();
  let isResting = false;
  let isDirty = false;
  let isStopped = false;

  async function refresh(post: KeptPost): Promise<void> {
    const { job, day, messageId } = post;
    const card = keptCard(desk, post);
    const text = JSON.stringify(card);
    if (said.get(messageId) === text) return;
    const edit = await posting.edit(messageId, card, { key: postKey(job, day) });
    if (edit.outcome === 'unknown') log.warn({ job, day, cause: edit.cause }, 'a post could not be brought up to date');
    else said.set(messageId, text);
  }

  async function refreshAll(): Promise<void> {
    try {
      const posts = keptPosts(desk);
      for (const id of said.keys()) if (posts.every(({ messageId }) => messageId !== id)) said.delete(id);
      for (const post of posts) if (!isStopped) await refresh(post);
    } catch (error) {
      log.error({ err: error }, 'bringing a post up to date broke');
    }
  }

  function run(): void {
    isDirty = false;
    isResting = true;
    editing = refreshAll().then(() => {
      if (isStopped) return;
      waiting = after(restMs, () => {
        waiting = undefined;
        isResting = false;
        if (isDirty) run();
      });
    });
  }

  return {
    /** Something may have been logged or undone. */
    worked(): void {
      if (isStopped) return;
      const version = booksVersion(desk);
      if (version === seen) return;
      seen = version;
      isDirty = true;
      if (isResting || waiting !== undefined) return;
      waiting = after(soonMs, () => {
        waiting = undefined;
        run();
      });
    },
    /** No new edit begins; resolves when the running one is done. */
    async stop(): Promise<void> {
      isStopped = true;
      waiting?.cancel();
      await editing;
    },
  };
}
