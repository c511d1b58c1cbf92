import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { FIXED_IDS } from '../../src/local/ids.ts';
import { type LocalChat, startLocalChat } from '../../src/local/startLocalChat.ts';
import { driveChat } from '../support/chat/driver.ts';
import { type BotProcess, startProcess } from './botProcess.ts';

const upLine = '"the bot is up"';

let folder: string;
let started: BotProcess[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'berried-'));
  started = [];
});
afterEach(async () => {
  for (const { child } of started) child.kill('SIGKILL');
  await Promise.all(started.map(({ ended }) => ended));
  rmSync(folder, { recursive: true, force: true });
});

const start = (settings: Readonly<Record<string, string>>): BotProcess => {
  const bot = startProcess({ BERRIED_DATA: folder, ...settings });
  started.push(bot);
  return bot;
};

describe('with an account', () => {
  let local: LocalChat;
  beforeEach(async () => {
    local = await startLocalChat({ port: 0, token: 'a-token-of-some-length' });
  });
  afterEach(() => local.close());

  const account = () => ({
    DISCORD_API_URL: local.apiUrl,
    DISCORD_TOKEN: local.token,
    DISCORD_GUILD_ID: local.guildId,
    DISCORD_CHANNEL_ID: local.channelId,
  });

  it('signs in, registers, answers, refuses, survives kill -9, and stops clean', async () => {
    const chat = driveChat(local.pageUrl);
    const puts = async () =>
      (await chat.requests()).filter(({ method, path }) => method === 'PUT' && path.endsWith('/commands'));
    const first = start(account());
    await first.said(upLine);
    expect(await puts()).toHaveLength(1);
    const help = await chat.as(FIXED_IDS.owner).command('help');
    expect(help.failure).toBeUndefined();
    expect(help.controls.length).toBeGreaterThan(0);
    const stranger = await chat.as(FIXED_IDS.stranger).command('help');
    expect(stranger).toMatchObject({ ephemeral: true, text: expect.stringContaining('No partner is set yet') });
    const elsewhere = await chat.as(FIXED_IDS.owner).in(FIXED_IDS.otherChannel).command('help');
    expect(elsewhere).toMatchObject({ ephemeral: true, text: expect.stringContaining('one channel') });

    first.child.kill('SIGKILL');
    expect(await first.ended).toBe('SIGKILL');
    const second = start(account());
    await second.said(upLine);
    expect(await puts()).toHaveLength(1);
    expect((await chat.as(FIXED_IDS.owner).command('help')).failure).toBeUndefined();

    const rival = start(account());
    expect(await rival.ended).toBe(1);
    expect(rival.stderr()).toContain(`already runs on the data folder ${folder} (process ${second.child.pid})`);

    second.child.kill('SIGTERM');
    second.child.kill('SIGTERM');
    expect(await second.ended).toBe(0);
    expect(second.stdout()).toBe('');
    for (const bot of [first, second, rival]) expect(bot.stderr()).not.toContain(local.token);
    expect((await chat.refusals()).filter(({ isInjected }) => !isInjected)).toEqual([]);
  });

  it('says what is wrong with the account, and that starting again does not help', async () => {
    const bot = start({ ...account(), DISCORD_TOKEN: 'another-token' });
    expect(await bot.ended).toBe(2);
    expect(bot.stderr()).toContain('does not accept DISCORD_TOKEN');
    expect(bot.stderr()).not.toContain('another-token');
  });
});

it('brings every wrong setting at once', async () => {
  const bot = start({ DISCORD_TOKEN: 'x', BERRIED_PORT: 'a', LOG_LEVEL: 'loud' });
  expect(await bot.ended).toBe(2);
  for (const name of ['DISCORD_GUILD_ID', 'DISCORD_CHANNEL_ID', 'BERRIED_PORT', 'LOG_LEVEL'])
    expect(bot.stderr()).toContain(name);
});

it('without a token brings its own service, says where in one line, and takes it along when it goes', async () => {
  const bot = start({ BERRIED_PORT: '0', BERRIED_NOW: '2027-04-12T06:00:00Z' });
  await bot.said('Open http');
  const pageUrl = /^Open (http:\/\/127\.0\.0\.1:\d+\/?) [^\n]*\n$/.exec(bot.stdout())?.[1] ?? '';
  const chat = driveChat(pageUrl);
  expect((await chat.people()).isBotConnected).toBe(true);
  expect((await chat.as(FIXED_IDS.owner).command('help')).failure).toBeUndefined();
  bot.child.kill('SIGINT');
  expect(await bot.ended).toBe(0);
  await expect(fetch(pageUrl)).rejects.toThrow();
  expect(bot.stdout().split('\n')).toHaveLength(2);
});
