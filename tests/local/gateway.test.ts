import { Events, GatewayIntentBits } from 'discord.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { type LocalChat, startLocalChat } from '../../src/local/startLocalChat.ts';
import { type BotAndChat, startBotAndChat } from './testBot.ts';

describe('a lost connection', () => {
  let bot: BotAndChat;
  beforeEach(async () => {
    bot = await startBotAndChat();
    await bot.client.guilds.cache.get(bot.local.guildId)?.commands.set([{ name: 'plain', description: 'd' }]);
    bot.onInteraction(async (interaction) => {
      if (interaction.isChatInputCommand()) await interaction.reply('here again');
    });
  });
  afterEach(() => bot.close());
  const once = (event: Events.ShardResume | Events.ShardReady) =>
    new Promise<void>((resolve) => bot.client.once(event, () => resolve()));

  it('is resumed, and a command sent meanwhile is answered', async () => {
    const resumed = once(Events.ShardResume);
    await bot.chat.gateway('drop');
    const reply = await bot.chat.as('linnet').command('plain');
    await resumed;
    expect(reply).toMatchObject({ kind: 'message', text: 'here again' });
  });

  it('is resumed after an outage', async () => {
    const resumed = once(Events.ShardResume);
    await bot.chat.gateway('down');
    expect((await bot.chat.people()).isBotConnected).toBe(false);
    const asked = bot.chat.as('linnet').command('plain');
    await bot.chat.gateway('up');
    await resumed;
    expect(await asked).toMatchObject({ kind: 'message', text: 'here again' });
  });

  it('is logged in anew when the session is forgotten', async () => {
    const ready = once(Events.ShardReady);
    await bot.chat.gateway('forget');
    await ready;
    expect(await bot.chat.as('linnet').command('plain')).toMatchObject({ kind: 'message' });
  });

  it('leaves nobody to answer once the bot has left', async () => {
    await bot.client.destroy();
    await expect.poll(async () => (await bot.chat.people()).isBotConnected).toBe(false);
    expect(await bot.chat.as('linnet').command('plain')).toMatchObject({
      kind: 'none',
      failure: 'the bot is not connected',
    });
  });
});

describe('a client that goes wrong is shown out', () => {
  let local: LocalChat;
  beforeEach(async () => {
    local = await startLocalChat({ port: 0 });
  });
  afterEach(() => local.close());

  /** Sends what is given once greeted and tells with which code the connection closes. */
  const closeCode = (payloads: unknown[], query = 'v=10&encoding=json') =>
    new Promise<number>((resolve) => {
      const socket = new WebSocket(`${local.pageUrl.replace('http:', 'ws:')}gateway?${query}`);
      socket.on('message', (raw: Buffer) => {
        if ((JSON.parse(raw.toString()) as { op: number }).op !== 10) return;
        for (const payload of payloads) socket.send(typeof payload === 'string' ? payload : JSON.stringify(payload));
      });
      socket.on('close', resolve);
    });
  const identify = (more: object = {}) => ({ op: 2, d: { token: local.token, intents: 1, properties: {}, ...more } });

  it('with an unknown kind of payload', async () => expect(await closeCode([{ op: 42, d: null }])).toBe(4001));
  it('with something that is not JSON', async () => expect(await closeCode(['{'])).toBe(4002));
  it('with a payload above 4096 bytes', async () =>
    expect(await closeCode([{ op: 1, d: 'x'.repeat(4097) }])).toBe(4002));
  it('with an identify that lacks its token', async () => expect(await closeCode([{ op: 2, d: {} }])).toBe(4002));
  it('acting before it logged in', async () => expect(await closeCode([{ op: 3, d: {} }])).toBe(4003));
  it('with a wrong token', async () => expect(await closeCode([identify({ token: 'wrong' })])).toBe(4004));
  it('resuming with a wrong token', async () =>
    expect(await closeCode([{ op: 6, d: { token: 'wrong', session_id: 's', seq: 1 } }])).toBe(4004));
  it('logging in twice', async () => expect(await closeCode([identify(), identify()])).toBe(4005));
  it('with more than 120 payloads in a minute', async () =>
    expect(await closeCode(Array.from({ length: 121 }, () => ({ op: 1, d: null })))).toBe(4008));
  it('with another version', async () => expect(await closeCode([], 'v=9&encoding=json')).toBe(4012));
  it('with intents that do not exist', async () =>
    expect(await closeCode([identify({ intents: 2 ** 30 })])).toBe(4013));
  it('with an intent that was not granted', async () =>
    expect(await closeCode([identify({ intents: GatewayIntentBits.MessageContent })])).toBe(4014));

  it('and one that resumes an unknown session is told to log in', async () => {
    const answer = await new Promise((resolve) => {
      const socket = new WebSocket(`${local.pageUrl.replace('http:', 'ws:')}gateway?v=10&encoding=json`);
      socket.on('message', (raw: Buffer) => {
        const payload = JSON.parse(raw.toString()) as { op: number };
        if (payload.op === 10)
          socket.send(JSON.stringify({ op: 6, d: { token: local.token, session_id: 'none', seq: 1 } }));
        else resolve(payload);
      });
    });
    expect(answer).toEqual({ op: 9, d: false });
  });
});

describe('events reach only those who asked for them', () => {
  it.each([
    ['guilds alone', GatewayIntentBits.Guilds, []],
    [
      'messages too',
      GatewayIntentBits.Guilds | GatewayIntentBits.GuildMessages,
      ['MESSAGE_CREATE', 'MESSAGE_UPDATE', 'MESSAGE_DELETE'],
    ],
  ])('%s', async (_what, intents, expected) => {
    const local = await startLocalChat({ port: 0 });
    const seen: string[] = [];
    const socket = new WebSocket(`${local.pageUrl.replace('http:', 'ws:')}gateway?v=10&encoding=json`);
    const send = async (method: string, path: string, body?: object) => {
      const answer = await fetch(`${local.apiUrl}/v10/channels/${path}`, {
        method,
        headers: { authorization: `Bot ${local.token}`, 'content-type': 'application/json' },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
      return (answer.status === 204 ? {} : await answer.json()) as { id: string };
    };
    const done = new Promise<void>((resolve) => {
      socket.on('message', (raw: Buffer) => {
        const { op, t } = JSON.parse(raw.toString()) as { op: number; t: string | null };
        if (op === 10) socket.send(JSON.stringify({ op: 2, d: { token: local.token, intents, properties: {} } }));
        if (t?.startsWith('MESSAGE_')) seen.push(t);
        if (t === 'CHANNEL_PINS_UPDATE') resolve();
        if (t === 'GUILD_CREATE') socket.emit('there');
      });
    });
    await new Promise((resolve) => socket.once('there', resolve));
    const path = `${local.channelId}/messages`;
    const { id } = await send('POST', path, { content: 'c' });
    await send('PATCH', `${path}/${id}`, { content: 'd' });
    await send('DELETE', `${path}/${id}`);
    const { id: last } = await send('POST', path, { content: 'last' });
    await send('PUT', `${path}/pins/${last}`);
    await done;
    expect(seen).toEqual(expected.length === 0 ? [] : [...expected, 'MESSAGE_CREATE']);
    socket.close(1000);
    await local.close();
  });
});
