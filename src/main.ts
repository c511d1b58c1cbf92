import { join } from 'node:path';
import { complete } from '../commands/complete.ts';
import { acts, commands, demoCommands } from '../commands/index.ts';
import { hasDatabase, seedDemo } from '../seed/demo.ts';
import { isRegion, publicHolidays } from './calendar/index.ts';
import { machineClock, openDemoClock } from './clock.ts';
import { type Config, readConfig } from './config.ts';
import { endingOfFolder } from './dataFolder.ts';
import type { Instant } from './domain/index.ts';
import { type Hold, holdFolder } from './instance.ts';
import { startJobs } from './jobs/alarm.ts';
import { FIXED_IDS } from './local/ids.ts';
import { type Log, openLog } from './log.ts';
import { type StandIn, startStandIn } from './standIn.ts';
import { type Bot, type Parts, startBot } from './start.ts';

/** The two people of the demo business are those of the stand-in's channel. */
const tryOutUsers = {
  owner: { userId: FIXED_IDS.owner, name: 'rowan' },
  partner: { userId: FIXED_IDS.partner, name: 'linnet' },
};

/** How the process ends: by request, so that a supervisor may try again, or with a setting that must be mended first. */
const exitCodes = { asked: 0, mayRetry: 1, settings: 2 } as const;

/** Everything that runs, in the order of starting; stopped from the end. */
const running: { hold?: Hold; standIn?: StandIn; bot?: Bot } = {};
let log: Log | undefined;
let ending: Promise<void> | undefined;

/** Stops what runs, once, and ends the process. */
function finish(code: number, sentence?: string): Promise<void> {
  ending ??= (async () => {
    if (sentence !== undefined) process.stderr.write(`${sentence}\n`);
    await running.bot?.stop();
    await running.standIn?.stop();
    await running.hold?.release();
    process.exit(code);
  })();
  return ending;
}

for (const signal of ['SIGTERM', 'SIGINT'] as const) {
  process.on(signal, () => void finish(exitCodes.asked));
}
process.on('uncaughtException', (error) => {
  log?.fatal({ err: error }, 'a bug ended the bot');
  if (log === undefined) process.stderr.write(`${error.stack}\n`);
  process.exit(exitCodes.mayRetry);
});

const read = readConfig(process.env);
if (read.ok) await run(read.value).catch((error: unknown) => endForFolder(error, read.value.dataFolder));
else
  await finish(
    exitCodes.settings,
    ['The settings are not right yet:', ...read.problems.map((text) => `  ${text}`)].join('\n'),
  );

async function run(config: Config): Promise<void> {
  log = openLog(config.logLevel, config.chat === null ? [] : [config.chat.token]);
  const held = await holdFolder(config.dataFolder);
  if (!held.ok) {
    const who = held.holderPid === null ? 'another process' : `process ${held.holderPid}`;
    return finish(
      exitCodes.mayRetry,
      `The bot already runs on the data folder ${config.dataFolder} (${who}): stop it first.`,
    );
  }
  running.hold = held.value;

  const clock = clockOf(config, log);
  if (config.chat === null && !hasDatabase(config.dataFolder)) {
    seedDemo({ folder: config.dataFolder, now: clock.now(), users: tryOutUsers });
  }
  const account = config.chat ?? (await tryOutAccount(config));
  if (account === undefined) return;
  const started = await startBot({
    dataFolder: config.dataFolder,
    account,
    clock,
    log,
    parts: partsOf(config),
    onEnding: ({ sentence, mayRetry }) => void finish(mayRetry ? exitCodes.mayRetry : exitCodes.settings, sentence),
  });
  if (!started.ok) {
    const { sentence, mayRetry } = started.ending;
    return finish(mayRetry ? exitCodes.mayRetry : exitCodes.settings, sentence);
  }
  running.bot = started.value;
  log.info({ data: config.dataFolder, clock: config.clock }, 'the bot is up');
  if (running.standIn !== undefined)
    process.stdout.write(`Open ${running.standIn.pageUrl} to try the bot; Ctrl-C ends it.\n`);
}

/** Ends with a sentence where the data folder is at fault; anything else is a bug. */
async function endForFolder(error: unknown, folder: string): Promise<void> {
  const ending = endingOfFolder(error, folder);
  if (ending === undefined) throw error;
  await finish(ending.mayRetry ? exitCodes.mayRetry : exitCodes.settings, ending.sentence);
}

/** Brings up the stand-in service of the try-out; undefined where it did not start, which ends the process. */
async function tryOutAccount(config: Config) {
  const standIn = await startStandIn(config.port, join(config.dataFolder, 'channel.json'));
  if (!standIn.ok) {
    await finish(exitCodes.mayRetry, standIn.cause);
    return undefined;
  }
  running.standIn = standIn.value;
  void standIn.value.gone.then(() => finish(exitCodes.mayRetry, 'The stand-in chat service ended.'));
  return standIn.value.account;
}

function clockOf(config: Config, to: Log) {
  if (config.clock === 'demo') return openDemoClock(config.dataFolder, config.startAt as Instant | null);
  if (config.startAt !== null) to.warn({}, 'BERRIED_NOW has no effect without BERRIED_CLOCK=demo');
  return machineClock;
}

function partsOf(config: Config): Parts {
  return {
    commands: config.clock === 'demo' ? demoCommands : commands,
    acts,
    complete,
    holidays: publicHolidays,
    isRegion,
    startJobs,
  };
}
