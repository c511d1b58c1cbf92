import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { complete } from '../../commands/complete.ts';
import { acts, demoCommands } from '../../commands/index.ts';
import { isRegion, publicHolidays } from '../../src/calendar/index.ts';
import { openDemoClock } from '../../src/clock.ts';
import { type Instant, instantOf } from '../../src/domain/index.ts';
import { startJobs } from '../../src/jobs/alarm.ts';
import { startLocalChat } from '../../src/local/startLocalChat.ts';
import { openLog } from '../../src/log.ts';
import { startBot } from '../../src/start.ts';
import { type Chat, driveChat } from './chat/driver.ts';

/** A Tuesday morning in the dispatch season. */
const startAt: Instant = instantOf(new Date('2027-04-13T08:00:00Z'));

/** On the card with which the bot greets a channel that holds nothing. */
const greetingButton = 'Log a reading';

export interface TryOut {
  readonly pageUrl: string;
  /** The bot's data folder. */
  readonly folder: string;
  readonly chat: Chat;
  /** Says how things stand before the test's own part: two partners, a line, and tubs as named ("A1-A6"). */
  setUp(tubs: string): Promise<void>;
  /** Ends it; fails when the bot logged a warning or worse while it ran. */
  close(): Promise<void>;
}

/** The whole bot with the clock of a demonstration, on a stand-in service whose channel holds its greeting only; both in this process. */
export async function startTryOut(): Promise<TryOut> {
  const folder = mkdtempSync(join(tmpdir(), 'berried-'));
  const local = await startLocalChat({ port: 0 });
  const { apiUrl, token, guildId, channelId } = local;
  const lines: string[] = [];
  const started = await startBot({
    dataFolder: folder,
    account: { apiUrl, token, guildId, channelId },
    clock: openDemoClock(folder, startAt),
    log: openLog('warn', [], (line) => lines.push(line)),
    parts: { commands: demoCommands, acts, complete, holidays: publicHolidays, isRegion, startJobs },
    onEnding: ({ sentence }) => lines.push(sentence),
  });
  if (!started.ok) throw new Error(started.ending.sentence);
  const chat = driveChat(local.pageUrl);
  await chat.untilMessage(({ controls }) => controls.some(({ label }) => label === greetingButton));

  return {
    pageUrl: local.pageUrl,
    folder,
    chat,
    async setUp(tubs) {
      const rowan = chat.as('rowan');
      await rowan.command('setup partner', { partner: 'rowan' });
      await rowan.command('setup partner', { partner: 'linnet' });
      await rowan.command('setup business', { timezone: 'Europe/London' });
      await rowan.command('setup line', { line: 'Orange', price: 2.5, 'hold-back': 10 });
      const added = await rowan.command('tub add', { name: tubs, line: 'Orange', litres: 30 });
      if (added.ephemeral) throw new Error(added.text);
    },
    async close() {
      const complaints = lines.join('\n');
      await started.value.stop();
      await local.close();
      rmSync(folder, { recursive: true, force: true });
      if (complaints !== '') throw new Error(`The bot complained: ${complaints}`);
    },
  };
}
