import { Client, GatewayIntentBits } from 'discord.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startLocalChat } from '../../src/local/startLocalChat.ts';
import { type BotAndChat, startBotAndChat } from './testBot.ts';

describe('logging in', () => {
  let bot: BotAndChat;
  beforeAll(async () => {
    bot = await startBotAndChat();
  });
  afterAll(() => bot.close());

  it('finds its guild, channels, rights and members', async () => {
    const guild = await bot.client.guilds.fetch(bot.local.guildId);
    const channel = await bot.client.channels.fetch(bot.local.channelId);
    expect(guild.channels.cache.size).toBe(2);
    expect(channel?.isSendable()).toBe(true);
    const me = await guild.members.fetchMe();
    const rights = channel?.isTextBased() && !channel.isDMBased() ? channel.permissionsFor(me).toArray() : [];
    expect(rights).toEqual(
      expect.arrayContaining(['ViewChannel', 'SendMessages', 'EmbedLinks', 'AttachFiles', 'ReadMessageHistory']),
    );
    const { users } = await bot.chat.people();
    const members = await Promise.all(users.map((user) => guild.members.fetch(user.id)));
    expect(members.map((member) => [member.user.username, member.permissions.has('ManageGuild')])).toEqual([
      ['rowan', true],
      ['linnet', false],
      ['passer', false],
    ]);
    expect((await bot.client.application.fetch()).id).toBe(bot.local.applicationId);
    expect(await bot.chat.refusals()).toEqual([]);
  });

  it('finds several members at once, by id or by the beginning of their name', async () => {
    const guild = await bot.client.guilds.fetch(bot.local.guildId);
    const ids = (await bot.chat.people()).users.slice(0, 2).map((user) => user.id);
    const byId = await guild.members.fetch({ user: ids });
    expect(byId.map((member) => member.user.username)).toEqual(['rowan', 'linnet']);
    const byName = await guild.members.fetch({ query: 'pas' });
    expect(byName.map((member) => member.user.username)).toEqual(['passer']);
  });

  it('is refused with a token that is not known', async () => {
    const local = await startLocalChat({ port: 0, token: 'the-right-one' });
    const client = new Client({ intents: [GatewayIntentBits.Guilds], rest: { api: local.apiUrl } });
    await expect(client.login('another-one')).rejects.toMatchObject({ code: 'TokenInvalid' });
    await client.destroy();
    await local.close();
  });
});
