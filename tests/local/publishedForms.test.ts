import * as published from 'discord-api-spec/zod';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ZodMiniType } from 'zod/mini';
import { type RawBot, startRawBot } from './rawBot.ts';

const CONTROLS = {
  type: 1,
  components: [{ type: 2, style: 1, label: 'Done', custom_id: 'd' }],
};
const V2_BODY = {
  flags: 32_768,
  components: [
    {
      type: 17,
      accent_color: 255,
      components: [
        { type: 10, content: 'text' },
        { type: 14 },
        {
          type: 9,
          components: [{ type: 10, content: 's' }],
          accessory: { type: 2, style: 2, label: 'b', custom_id: 'b' },
        },
        {
          type: 9,
          components: [{ type: 10, content: 's' }],
          accessory: { type: 11, media: { url: 'attachment://a.png' } },
        },
        { type: 12, items: [{ media: { url: 'attachment://a.png' }, description: 'd' }] },
        { type: 13, file: { url: 'attachment://a.png' } },
        { type: 1, components: [{ type: 3, custom_id: 's', options: [{ label: 'l', value: 'v' }] }] },
        { type: 1, components: [{ type: 5, custom_id: 'u' }] },
        { type: 1, components: [{ type: 8, custom_id: 'c', channel_types: [0] }] },
        { type: 1, components: [{ type: 2, style: 5, label: 'l', url: 'https://example.com/' }] },
      ],
    },
  ],
};
const EMBED = {
  title: 't',
  description: 'd',
  url: 'https://example.com/',
  color: 5,
  timestamp: '2026-11-25T12:00:00.000Z',
  author: { name: 'a' },
  footer: { text: 'f' },
  image: { url: 'attachment://a.png' },
  fields: [{ name: 'n', value: 'v' }],
};
const COMMAND = {
  name: 'typed',
  description: 'd',
  default_member_permissions: '32',
  options: [
    {
      type: 2,
      name: 'group',
      description: 'd',
      options: [
        {
          type: 1,
          name: 'sub',
          description: 'd',
          options: [
            { type: 3, name: 'text', description: 'd', required: true, autocomplete: true, max_length: 10 },
            { type: 4, name: 'whole', description: 'd', choices: [{ name: 'one', value: 1 }] },
            { type: 10, name: 'number', description: 'd', min_value: 0 },
            { type: 6, name: 'user', description: 'd' },
          ],
        },
      ],
    },
  ],
};

/** Whatever the stand-in answers must itself fit the published document. */
describe('answers fit the published schemas', () => {
  let bot: RawBot;
  let messages: string;
  let commands: string;
  const picture = [{ name: 'a.png', bytes: new Uint8Array([1]) }];
  beforeAll(async () => {
    bot = await startRawBot();
    messages = `/channels/${bot.local.channelId}/messages`;
    commands = `/applications/${bot.local.applicationId}/guilds/${bot.local.guildId}/commands`;
    await bot.send('PUT', commands, [{ name: 'plain', description: 'd' }]);
  });
  afterAll(() => bot.close());

  const fits = (schema: ZodMiniType, json: unknown) => {
    const parsed = schema.safeParse(json);
    expect(parsed.success ? [] : parsed.error.issues).toEqual([]);
  };

  it('who and where the bot is', async () => {
    const { guildId, channelId } = bot.local;
    const [owner] = (await bot.chat.people()).users;
    const ask = async (path: string) => (await bot.send('GET', path)).json;
    fits(published.GatewayBotResponseSchema, await ask('/gateway/bot'));
    fits(published.UserPIIResponseSchema, await ask('/users/@me'));
    fits(published.PrivateApplicationResponseSchema, await ask('/applications/@me'));
    // The stand-in has no calls, and leaves out how many could take part in one.
    const guild = published.GuildWithCountsResponseSchema.safeParse(await ask(`/guilds/${guildId}?with_counts=true`));
    const missing = guild.error?.issues.map((issue) => String(issue.path[0])) ?? [];
    expect(missing.filter((name) => !/^max_\w+_channel_users$/.test(name))).toEqual([]);
    fits(published.GuildMemberResponseSchema, await ask(`/guilds/${guildId}/members/${owner?.id}`));
    fits(published.GuildMemberResponseSchema, await ask(`/guilds/${guildId}/members/@me`));
    for (const role of (await ask(`/guilds/${guildId}/roles`)) as unknown[])
      fits(published.GuildRoleResponseSchema, role);
    for (const channel of (await ask(`/guilds/${guildId}/channels`)) as unknown[])
      fits(published.GuildChannelResponseSchema, channel);
    fits(published.GuildChannelResponseSchema, await ask(`/channels/${channelId}`));
    const direct = await bot.send('POST', '/users/@me/channels', { recipient_id: owner?.id });
    fits(published.PrivateChannelResponseSchema, direct.json);
  });

  it('messages of every make', async () => {
    const first = await bot.sendForm(
      'POST',
      messages,
      { content: 'c', embeds: [EMBED], components: [CONTROLS], nonce: 'n' },
      picture,
    );
    fits(published.MessageResponseSchema, first.json);
    const second = await bot.sendForm('POST', messages, V2_BODY, picture);
    fits(published.MessageResponseSchema, second.json);
    const { id } = second.json as { id: string };
    fits(
      published.MessageResponseSchema,
      (await bot.send('POST', messages, { content: 'r', message_reference: { message_id: id } })).json,
    );
    fits(
      published.MessageResponseSchema,
      (await bot.send('PATCH', `${messages}/${id}`, { components: [{ type: 10, content: 'e' }] })).json,
    );
    await bot.send('PUT', `${messages}/pins/${id}`);
    fits(published.PinnedMessagesResponseSchema, (await bot.send('GET', `${messages}/pins`)).json);
    const listed = (await bot.send('GET', messages)).json as unknown[];
    expect(listed).toHaveLength(3);
    for (const message of listed) fits(published.MessageResponseSchema, message);
  });

  it('commands', async () => {
    const made = await bot.send('POST', commands, COMMAND);
    expect(made.status).toBe(201);
    fits(published.ApplicationCommandResponseSchema, made.json);
    const { id } = made.json as { id: string };
    expect((await bot.send('POST', commands, COMMAND)).status).toBe(200);
    fits(published.ApplicationCommandResponseSchema, (await bot.send('GET', `${commands}/${id}`)).json);
    fits(
      published.ApplicationCommandResponseSchema,
      (await bot.send('PATCH', `${commands}/${id}`, { description: 'e' })).json,
    );
    const listed = (await bot.send('GET', commands)).json as unknown[];
    expect(listed).toHaveLength(2);
    for (const command of listed) fits(published.ApplicationCommandResponseSchema, command);
    fits(
      published.ApplicationCommandResponseSchema,
      ((await bot.send('PUT', commands, [{ name: 'plain', description: 'd' }])).json as unknown[])[0],
    );
  });

  it('answers to interactions, asked for with the answer', async () => {
    const linnet = bot.chat.as('linnet');
    const answer = async (asked: Promise<unknown>, body: unknown) => {
      const interaction = await bot.nextInteraction();
      const { json, status } = await bot.callback(interaction, body, '?with_response=true');
      expect(status).toBe(200);
      fits(published.InteractionCallbackResponseSchema, json);
      await asked;
      return { interaction, resource: (json as { resource?: { type: number } }).resource };
    };
    const shown = linnet.command('plain');
    expect((await answer(shown, { type: 4, data: { content: 'c', components: [CONTROLS] } })).resource).toMatchObject({
      type: 4,
    });
    const updated = linnet.press(await shown, 'Done');
    const { resource, interaction } = await answer(updated, { type: 7, data: { content: 'd' } });
    expect(resource).toMatchObject({ type: 7, message: { content: 'd' } });
    const followUp = await bot.send('POST', `/webhooks/${bot.local.applicationId}/${interaction.token}`, {
      content: 'f',
    });
    fits(published.MessageResponseSchema, followUp.json);
    const deferred = linnet.command('plain', {}, { settleMs: 0 });
    expect((await answer(deferred, { type: 5, data: { flags: 64 } })).resource).toBeUndefined();
    const component = { type: 4, custom_id: 'i', style: 1 };
    const form = linnet.command('plain');
    await answer(form, {
      type: 9,
      data: { custom_id: 'm', title: 't', components: [{ type: 18, label: 'l', component }] },
    });
    await answer(linnet.submit(await form, { l: 'v' }), { type: 4, data: { content: 'from a form' } });
  });
});
