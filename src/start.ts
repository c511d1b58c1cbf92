import { join } from 'node:path';
import type { ActHandlers, Command, Ctx } from '../commands/command.ts';
import { isSlowAgain, runLeaf, runPress } from '../commands/run.ts';
import {
  type App,
  type ChatAccount,
  type ChatLog,
  type Ending,
  type Publisher,
  photoKeeper,
  startChat,
} from './chat/index.ts';
import type { Clock, SettableClock } from './clock.ts';
import { businessOf, colonySlices, type Desk, loggedBy, waterSlices } from './desk/index.ts';
import { dayMs, type Instant, plusMs } from './domain/index.ts';
import { inSlices } from './slices.ts';
import { openStore } from './store/open.ts';
import { photoFolder } from './store/photos.ts';

/** What the bot is made of beside the store and the chat. */
export interface Parts {
  readonly commands: readonly Command[];
  readonly acts: ActHandlers;
  readonly complete: App['complete'];
  readonly holidays: Desk['holidays'];
  readonly isRegion: Desk['isRegion'];
  readonly startJobs?: StartJobs;
}

/** Starts the scheduled posts. */
export type StartJobs = (needs: {
  readonly desk: Desk;
  readonly publisher: Publisher;
  /** The clock that `advanceTo` moves on; null in earnest. */
  readonly demoClock: SettableClock | null;
  readonly log: ChatLog;
}) => Jobs;

export interface Jobs {
  /** Moves the demonstration's clock on, step by step through everything that falls due on the way. */
  advanceTo(to: Instant): Promise<{ readonly posts: number }>;
  /** Something may have been logged: the posts of today that speak of it are brought up to date soon. */
  worked(): void;
  /** No new run begins; resolves when the running one is done. */
  stop(): Promise<void>;
}

export interface BotOptions {
  readonly dataFolder: string;
  readonly account: ChatAccount;
  /** Business time; a settable clock makes it a demonstration. */
  readonly clock: Clock | SettableClock;
  readonly log: ChatLog;
  readonly parts: Parts;
  /** Called once when the connection ends for good after the start. */
  readonly onEnding: (ending: Ending) => void;
}

export interface Bot {
  readonly desk: Desk;
  readonly publisher: Publisher;
  /** Jobs, then running handlers, then the connection, then the store; calling it again changes nothing. */
  stop(): Promise<void>;
}

/** Unfinished entries go after a week. */
const draftsKeptMs = 7 * dayMs;

/** Opens the store and brings the bot up on it. The data folder must be held by this process. */
export async function startBot(
  options: BotOptions,
): Promise<{ readonly ok: true; readonly value: Bot } | { readonly ok: false; readonly ending: Ending }> {
  const { clock, log, parts, account, dataFolder, onEnding } = options;
  const demo = 'setTo' in clock ? clock : null;
  const store = openStore(dataFolder);
  const desk: Desk = {
    store,
    now: clock.now,
    machineZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    holidays: parts.holidays,
    isRegion: parts.isRegion,
  };
  store.settings.startedAt(clock.now());
  store.drafts.dropBefore(plusMs(clock.now(), -draftsKeptMs));

  let jobs: Jobs | undefined;
  const demoClock: Ctx['demoClock'] = demo && {
    async advanceTo(to) {
      if (jobs !== undefined) return jobs.advanceTo(to);
      demo.setTo(to);
      return { posts: 0 };
    },
  };
  const keepPhoto = photoKeeper(join(dataFolder, photoFolder));
  const app: App = {
    commands: parts.commands,
    runLeaf,
    press: async (pressed, ctx, given) => runPress(parts.acts, pressed, ctx, given),
    isSlow: (pressed) => isSlowAgain(pressed, desk, parts.commands),
    complete: parts.complete,
    contextFor: (by, owner) => ({ desk, by, owner, now: desk.now(), keepPhoto, demoClock }),
    partners: store.settings.partners,
    chosenChannel: () => businessOf(desk).channelId,
    loggedBy: (key) => loggedBy(desk, key),
    worked: () => jobs?.worked(),
  };

  const chat = await startChat(app, account, log, onEnding).catch((error: unknown) => {
    store.close();
    throw error;
  });
  if (!chat.ok) {
    store.close();
    return chat;
  }
  jobs = parts.startJobs?.({ desk, publisher: chat.value, demoClock: demo, log });
  const upToDate = inSlices(believed(desk), log);
  let stopped: Promise<void> | undefined;
  const stop = async (): Promise<void> => {
    upToDate.stop();
    await jobs?.stop();
    await chat.value.stop();
    store.close();
  };
  return {
    ok: true,
    value: {
      desk,
      publisher: chat.value,
      stop() {
        stopped ??= stop();
        return stopped;
      },
    },
  };
}

/** All that is concluded from what was logged and kept in memory: of the water first, which takes a second, then of the animals. */
function* believed(desk: Desk): Generator<void> {
  yield* waterSlices(desk);
  yield* colonySlices(desk);
}
