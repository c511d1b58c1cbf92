import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Ending } from '../../src/chat/index.ts';
import { type Instant, instantOf } from '../../src/domain/index.ts';
import { startLocalChat } from '../../src/local/startLocalChat.ts';
import { openLog } from '../../src/log.ts';
import { type Parts, startBot } from '../../src/start.ts';
import { driveChat } from '../support/chat/driver.ts';
import { fixtureActs, fixtureCommands } from './fixtureCommands.ts';

export const fixtureParts: Parts = {
  commands: fixtureCommands,
  acts: fixtureActs,
  complete: (kind, typed, ctx, others) => [
    { name: `${kind} ${typed} ${ctx.by.name} ${JSON.stringify(others)}`, value: 'A1' },
    { name: 'x'.repeat(150), value: 'A2' },
    { name: 'no value', value: '' },
    ...Array.from({ length: 30 }, (_, index) => ({ name: `B${index}`, value: `B${index}` })),
  ],
  holidays: () => [],
  isRegion: () => false,
};

const now: Instant = instantOf(new Date('2027-04-13T08:00:00Z'));

/** The bot on a stand-in service, both in this process, with the fixture's commands. */
export async function startLiveBot(parts: Parts = fixtureParts) {
  const folder = mkdtempSync(join(tmpdir(), 'berried-'));
  const local = await startLocalChat({ port: 0 });
  const lines: string[] = [];
  const endings: Ending[] = [];
  let end: (ending: Ending) => void = () => {};
  const ended = new Promise<Ending>((resolve) => {
    end = resolve;
  });
  const { apiUrl, token, guildId, channelId } = local;
  const start = () =>
    startBot({
      dataFolder: folder,
      account: { apiUrl, token, guildId, channelId },
      clock: { now: () => now },
      log: openLog('debug', [], (line) => lines.push(line)),
      parts,
      onEnding: (ending) => {
        endings.push(ending);
        end(ending);
      },
    });
  const first = await start();
  if (!first.ok) throw new Error(first.ending.sentence);
  let bot = first.value;

  return {
    local,
    folder,
    endings,
    ended,
    chat: driveChat(local.pageUrl),
    logged: () => lines.join(''),
    bot: () => bot,
    entries: () => bot.desk.store.entries.latest(100).map(({ summary }) => summary),
    async restart() {
      await bot.stop();
      const next = await start();
      if (!next.ok) throw new Error(next.ending.sentence);
      bot = next.value;
    },
    async close() {
      await bot.stop();
      await local.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export type LiveBot = Awaited<ReturnType<typeof startLiveBot>>;
