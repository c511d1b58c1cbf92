import { AttachmentBuilder, ComponentType, MessageFlags, type TextChannel } from 'discord.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type BotAndChat, startBotAndChat } from './testBot.ts';

/** The header of a picture of 3 by 2. */
const PNG = Buffer.from('89504e470d0a1a0a0000000d494844520000000300000002', 'hex');

describe('messages of the bot', () => {
  let bot: BotAndChat;
  let channel: TextChannel;
  beforeEach(async () => {
    bot = await startBotAndChat();
    channel = (await bot.client.channels.fetch(bot.local.channelId)) as TextChannel;
  });
  afterEach(() => bot.close());
  const texts = async () => (await bot.chat.channelMessages()).map((message) => message.text);

  it('are posted, edited, pinned, listed and deleted', async () => {
    const first = await channel.send('one');
    await first.edit('one, changed');
    await first.pin();
    await channel.sendTyping();
    const second = await channel.send({ content: 'two', reply: { messageReference: first } });
    const third = await channel.send('three');
    expect((await channel.messages.fetchPins()).items.map((pin) => pin.message.content)).toEqual(['one, changed']);
    await first.unpin();
    const read = async (options: object) =>
      [...(await channel.messages.fetch({ cache: false, ...options })).values()].map((message) => message.content);
    expect(await read({})).toEqual(['three', 'two', 'one, changed']);
    expect(await read({ limit: 1 })).toEqual(['three']);
    expect(await read({ before: third.id, limit: 1 })).toEqual(['two']);
    expect(await read({ after: first.id })).toEqual(['three', 'two']);
    expect(await read({ around: second.id, limit: 3 })).toEqual(['three', 'two', 'one, changed']);
    expect((await second.fetchReference()).content).toBe('one, changed');
    await second.delete();
    expect(await texts()).toEqual(['one, changed', 'three']);
    expect(await bot.chat.refusals()).toEqual([]);
  });

  it('carry files, in embeds, in components and beside them, and keep or drop them when edited', async () => {
    const chart = () => new AttachmentBuilder(PNG, { name: 'chart.png', description: 'Nitrate of A1' });
    const plain = await channel.send({ content: 'c', files: [chart()] });
    expect(plain.attachments.map((file) => [file.name, file.width, file.height, file.description])).toEqual([
      ['chart.png', 3, 2, 'Nitrate of A1'],
    ]);
    const inEmbed = await channel.send({
      embeds: [{ title: 't', image: { url: 'attachment://chart.png' } }],
      files: [chart()],
    });
    expect(inEmbed.attachments.size).toBe(0);
    const gallery = {
      type: ComponentType.MediaGallery,
      items: [{ media: { url: 'attachment://chart.png' } }],
    } as const;
    await channel.send({ flags: MessageFlags.IsComponentsV2, components: [gallery], files: [chart()] });
    const urls = (await bot.chat.channelMessages()).flatMap((message) => message.files);
    expect(new Set(urls).size).toBe(3);
    for (const url of urls) expect(Buffer.from(await (await fetch(url)).arrayBuffer())).toEqual(PNG);
    const kept = await plain.edit({
      content: 'with another',
      files: [new AttachmentBuilder(PNG, { name: 'second.png' })],
    });
    expect(kept.attachments.map((file) => file.name)).toEqual(['second.png']);
    const dropped = await kept.edit({ content: 'without', attachments: [] });
    expect(dropped.attachments.size).toBe(0);
    expect((await fetch(urls[0] ?? '')).status).toBe(404);
  });

  it('ping only whom they may', async () => {
    const { users } = await bot.chat.people();
    const [rowan, linnet] = users.map((user) => user.id);
    const content = `<@${rowan}> and <@${linnet}>`;
    const pinged = async (allowedMentions?: { parse: []; users?: string[] }) =>
      (
        await channel.send({ content, ...(allowedMentions === undefined ? {} : { allowedMentions }) })
      ).mentions.users.map((user) => user.username);
    expect(await pinged()).toEqual(['rowan', 'linnet']);
    expect(await pinged({ parse: [] })).toEqual([]);
    expect(await pinged({ parse: [], users: [linnet ?? ''] })).toEqual(['linnet']);
    const text = { type: ComponentType.TextDisplay, content: `<@${rowan}>` } as const;
    const shown = await channel.send({ flags: MessageFlags.IsComponentsV2, components: [text] });
    expect(shown.mentions.users.map((user) => user.username)).toEqual(['rowan']);
  });

  it('are told apart from what people say', async () => {
    const said = await bot.chat.as('linnet').say('hello');
    const seen = await channel.messages.fetch(said.message.id);
    expect([seen.author.username, seen.author.bot, seen.content]).toEqual(['linnet', false, 'hello']);
  });

  it('reach one person alone when sent directly', async () => {
    const user = await bot.client.users.fetch((await bot.chat.people()).users[0]?.id ?? '');
    const direct = await user.send('between us');
    expect(await texts()).toEqual([]);
    expect((await bot.chat.as('rowan').in(direct.channelId).messages()).map((message) => message.text)).toEqual([
      'between us',
    ]);
    expect(await bot.chat.as('linnet').in(direct.channelId).messages()).toEqual([]);
  });

  it('appear twice when an answer is lost on the way and no nonce is enforced', async () => {
    await bot.chat.fault({ kind: 'loseAnswer', method: 'POST', route: '/channels/{channel}/messages' });
    await channel.send('morning');
    expect(await texts()).toEqual(['morning', 'morning']);
  });

  it('appear once when the nonce is enforced', async () => {
    await bot.chat.fault({ kind: 'loseAnswer', method: 'POST', route: '/channels/{channel}/messages' });
    const sent = await channel.send({ content: 'morning', nonce: 'morning-20261125', enforceNonce: true });
    const messages = await bot.chat.channelMessages();
    expect(messages.map((message) => message.message.id)).toEqual([sent.id]);
  });

  it('exist although sending threw, when the connection closes without a word', async () => {
    await bot.chat.fault({ kind: 'loseAnswer', how: 'close', method: 'POST', route: '/channels/{channel}/messages' });
    await expect(channel.send('morning')).rejects.toThrow();
    expect(await texts()).toEqual(['morning']);
  });

  it('are sent again after an error of the service, which is no refusal', async () => {
    await bot.chat.fault({
      kind: 'status',
      status: 502,
      times: 2,
      method: 'POST',
      route: '/channels/{channel}/messages',
    });
    await channel.send('morning');
    expect(await texts()).toEqual(['morning']);
    const posts = (await bot.chat.requests()).filter((request) => request.method === 'POST');
    expect(posts.map((request) => request.status)).toEqual([502, 502, 200]);
    expect(await bot.chat.refusals()).toEqual([]);
    await bot.chat.forgetRequests();
    expect(await bot.chat.requests()).toEqual([]);
  });

  it('fail as a test wants them to', async () => {
    const body = { code: 50013, message: 'Missing Permissions' };
    await bot.chat.fault({ kind: 'status', status: 403, body, method: 'POST', route: '/channels/{channel}/messages' });
    await expect(channel.send('morning')).rejects.toMatchObject({ code: 50013 });
    await bot.chat.fault({
      kind: 'status',
      status: 500,
      times: 9,
      method: 'POST',
      route: '/channels/{channel}/messages',
    });
    await bot.chat.clearFaults();
    await channel.send('morning');
    expect(await texts()).toEqual(['morning']);
  });
});
