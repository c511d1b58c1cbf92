import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RawBot, startRawBot } from './rawBot.ts';

describe('the control interface', () => {
  let bot: RawBot;
  let path: string;
  beforeAll(async () => {
    bot = await startRawBot();
    path = `/channels/${bot.local.channelId}/messages`;
  });
  afterAll(() => bot.close());

  it('knows an owner, a partner and a stranger, and takes more people and channels', async () => {
    const { users } = await bot.chat.people();
    expect(users.map((user) => [user.name, user.isOwner, user.mayManage])).toEqual([
      ['rowan', true, true],
      ['linnet', false, false],
      ['passer', false, false],
    ]);
    expect(await bot.chat.addUser('wren', { mayManage: true })).toMatchObject({ name: 'wren', mayManage: true });
    await expect(bot.chat.addUser('wren')).rejects.toThrow('"wren" is taken');
    await expect(bot.chat.addUser('Not A Name')).rejects.toThrow('name');
    await bot.chat.addChannel('packing');
    await expect(bot.chat.addChannel('packing')).rejects.toThrow('"packing" is taken');
    await expect(bot.chat.as('nobody').messages()).rejects.toThrow('nobody here');
    await expect(bot.chat.as('rowan').in('nowhere').messages()).rejects.toThrow('no channel');
  });

  it('waits for a message to come, or to be changed', async () => {
    const coming = bot.chat.untilMessage((message) => message.text === 'morning');
    const { id } = (await bot.send('POST', path, { content: 'morning' })).json as { id: string };
    expect((await coming).message.id).toBe(id);
    const changing = bot.chat.untilMessage((message) => message.text === 'morning, done');
    await bot.send('PATCH', `${path}/${id}`, { content: 'morning, done' });
    expect((await changing).message.id).toBe(id);
    await expect(bot.chat.untilMessage(() => false, { limitMs: 1 })).rejects.toThrow('there are: ["morning, done"]');
  });

  it('tells a page that something changed', async () => {
    const stream = await fetch(new URL('/local/events', bot.local.pageUrl));
    const reader = stream.body?.pipeThrough(new TextDecoderStream()).getReader();
    expect(stream.headers.get('content-type')).toBe('text/event-stream');
    expect((await reader?.read())?.value).toBe('retry: 1000\n\n');
    await bot.send('POST', path, { content: 'c' });
    expect((await reader?.read())?.value).toBe('event: changed\ndata: {"kind":"messageCreated"}\n\n');
    await reader?.cancel();
  });

  it('keeps a log of what the bot asked and what it was told', async () => {
    await bot.chat.forgetRequests();
    await bot.send('POST', path, { content: 'c' });
    await bot.send('POST', path, {});
    const log = await bot.chat.requests();
    expect(log.map((entry) => [entry.method, entry.route, entry.status, entry.code])).toEqual([
      ['POST', '/channels/{channel}/messages', 200, undefined],
      ['POST', '/channels/{channel}/messages', 400, 50006],
    ]);
    expect(await bot.chat.refusals()).toEqual([log[1]]);
  });

  it('holds an answer back after it took effect, until released', async () => {
    const release = await bot.chat.fault({
      kind: 'hold',
      when: 'after',
      method: 'POST',
      route: '/channels/{channel}/messages',
    });
    let isAnswered = false;
    const sending = bot.send('POST', path, { content: 'held' }).then((answer) => {
      isAnswered = true;
      return answer;
    });
    await bot.chat.untilMessage((message) => message.text === 'held');
    expect(isAnswered).toBe(false);
    await release();
    expect((await sending).status).toBe(200);
  });
});
