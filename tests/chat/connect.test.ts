import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { endingOfClose } from '../../src/chat/ending.ts';
import { instantOf } from '../../src/domain/index.ts';
import { FIXED_IDS } from '../../src/local/ids.ts';
import { type LocalChat, startLocalChat } from '../../src/local/startLocalChat.ts';
import { openLog } from '../../src/log.ts';
import { startBot } from '../../src/start.ts';
import { driveChat } from '../support/chat/driver.ts';
import { fixtureParts, startLiveBot } from './liveBot.ts';

let local: LocalChat;
const folder = mkdtempSync(join(tmpdir(), 'berried-'));
beforeAll(async () => {
  local = await startLocalChat({ port: 0, token: 'right-token' });
});
afterAll(async () => {
  await local.close();
  rmSync(folder, { recursive: true, force: true });
});

const attempt = async (wrong: { apiUrl?: string; token?: string; guildId?: string; channelId?: string }) => {
  const { apiUrl, token, guildId, channelId } = local;
  const started = await startBot({
    dataFolder: folder,
    account: { apiUrl, token, guildId, channelId, ...wrong },
    clock: { now: () => instantOf(new Date('2027-04-13T08:00:00Z')) },
    log: openLog('silent', []),
    parts: fixtureParts,
    onEnding: () => {},
  });
  if (!started.ok) return started.ending;
  await started.value.stop();
  return 'started';
};

it('a wrong token is said in one sentence, and no restart will help', async () => {
  expect(await attempt({ token: 'wrong-token' })).toEqual({
    sentence: expect.stringContaining('DISCORD_TOKEN'),
    mayRetry: false,
  });
});

it('a channel that is not there, or not in the guild, is said', async () => {
  expect(await attempt({ channelId: '999999' })).toEqual({
    sentence: expect.stringContaining('DISCORD_CHANNEL_ID'),
    mayRetry: false,
  });
  expect(await attempt({ guildId: '999999' })).toEqual({
    sentence: expect.stringContaining('DISCORD_GUILD_ID'),
    mayRetry: false,
  });
});

it('a service that cannot be reached may be tried again', async () => {
  expect(await attempt({ apiUrl: 'http://127.0.0.1:1/api' })).toEqual({
    sentence: expect.stringContaining('could not be reached'),
    mayRetry: true,
  });
  expect(await attempt({})).toBe('started');
});

it('every close code that ends the connection has its sentence', () => {
  const sentences = [4004, 4010, 4011, 4012, 4013, 4014].map((code) => endingOfClose(code));
  expect(sentences.every(({ mayRetry }) => !mayRetry)).toBe(true);
  expect(endingOfClose(4999)).toEqual({ sentence: expect.stringContaining('4999'), mayRetry: true });
});

it('commands are written at the first start only, and again when somebody changed them', async () => {
  const live = await startLiveBot();
  const puts = async () =>
    (await live.chat.requests()).filter(({ method, path }) => method === 'PUT' && path.endsWith('/commands'));
  expect(await puts()).toHaveLength(1);
  await live.restart();
  expect(await puts()).toHaveLength(1);
  await fetch(`${live.local.apiUrl}/v10/applications/${FIXED_IDS.application}/guilds/${live.local.guildId}/commands`, {
    method: 'PUT',
    headers: { authorization: `Bot ${live.local.token}`, 'content-type': 'application/json' },
    body: '[]',
  });
  await live.restart();
  expect(await puts()).toHaveLength(3);
  expect((await driveChat(live.local.pageUrl).commands()).map(({ name }) => name)).toEqual(['note', 'try']);
  await live.close();
});
