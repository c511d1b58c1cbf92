import { type ChatInputCommandInteraction, MessageFlags } from 'discord.js';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type BotAndChat, startBotAndChat } from './testBot.ts';

const COMMANDS = [
  {
    name: 'reading',
    description: 'Water values',
    options: [
      {
        type: 1,
        name: 'log',
        description: 'Log a reading',
        options: [
          { type: 3, name: 'tub', description: 'Which tub', required: true, autocomplete: true },
          { type: 10, name: 'nitrate', description: 'mg/L' },
          { type: 4, name: 'berried', description: 'How many' },
          { type: 5, name: 'photo-asked', description: 'Whether' },
          { type: 3, name: 'units', description: 'Which', choices: [{ name: 'metric', value: 'si' }] },
          { type: 6, name: 'partner', description: 'Who' },
          { type: 7, name: 'channel', description: 'Where' },
          { type: 11, name: 'photo', description: 'Picture' },
        ],
      },
    ],
  },
  { name: 'plain', description: 'No options' },
];

const PICTURE = { filename: 'tub.png', contentType: 'image/png', bytes: new Uint8Array([1, 2, 3]) };

describe('slash commands', () => {
  let bot: BotAndChat;
  const onCommand = (act: (interaction: ChatInputCommandInteraction<'cached'>) => Promise<unknown>) =>
    bot.onInteraction(async (interaction) => (interaction.isChatInputCommand() ? act(interaction) : undefined));
  beforeAll(async () => {
    bot = await startBotAndChat();
    await bot.client.guilds.cache.get(bot.local.guildId)?.commands.set(COMMANDS);
  });
  beforeEach(() => {
    bot.problems.length = 0;
  });
  afterAll(async () => {
    expect(bot.problems).toEqual([]);
    expect(await bot.chat.refusals()).toEqual([]);
    await bot.close();
  });

  it('brings a slash command with its options typed and resolved', async () => {
    const seen: unknown[] = [];
    onCommand(async (interaction) => {
      const { options } = interaction;
      const photo = options.getAttachment('photo', true);
      seen.push(
        options.getSubcommand(),
        options.getString('tub'),
        options.getNumber('nitrate'),
        options.getInteger('berried'),
      );
      seen.push(options.getBoolean('photo-asked'), options.getString('units'));
      seen.push(options.getUser('partner')?.username, options.getMember('partner')?.permissions.has('ManageGuild'));
      seen.push(options.getChannel('channel')?.name, photo.name, photo.size, [
        ...new Uint8Array(await (await fetch(photo.url)).arrayBuffer()),
      ]);
      seen.push(
        interaction.user.username,
        interaction.memberPermissions.has('ManageGuild'),
        interaction.channelId === bot.local.channelId,
      );
      await interaction.reply('seen');
    });
    const options = {
      tub: 'A1',
      nitrate: 40.5,
      berried: 3,
      'photo-asked': true,
      units: 'metric',
      partner: 'rowan',
      channel: 'elsewhere',
      photo: PICTURE,
    };
    expect(await bot.chat.as('linnet').command('reading log', options)).toMatchObject({
      kind: 'message',
      text: 'seen',
    });
    expect(seen).toEqual([
      'log',
      'A1',
      40.5,
      3,
      true,
      'si',
      'rowan',
      true,
      'elsewhere',
      'tub.png',
      3,
      [1, 2, 3],
      'linnet',
      false,
      true,
    ]);
  });

  it('refuses to act as no person could: an option that is missing, unknown, or of the wrong kind', async () => {
    const linnet = bot.chat.as('linnet');
    await expect(linnet.command('reading log')).rejects.toThrow('needs the option "tub"');
    await expect(linnet.command('reading log', { tub: 'A1', colour: 'red' })).rejects.toThrow('no option "colour"');
    await expect(linnet.command('reading log', { tub: 'A1', nitrate: 'much' })).rejects.toThrow('takes a number');
    await expect(linnet.command('reading log', { tub: 'A1', berried: 1.5 })).rejects.toThrow('takes a whole number');
    await expect(linnet.command('reading log', { tub: 'A1', units: 'us' })).rejects.toThrow('takes one of: metric');
    await expect(linnet.command('reading log', { tub: 'A1', partner: 'nobody' })).rejects.toThrow('nobody here');
    await expect(linnet.command('reading')).rejects.toThrow('needs one of: log');
    await expect(linnet.command('nothing')).rejects.toThrow('no command /nothing');
    await expect(bot.chat.as('nobody').command('plain')).rejects.toThrow('nobody here is called "nobody"');
  });

  it('shows all text of a reply, embeds included, to everybody', async () => {
    onCommand((interaction) =>
      interaction.reply({
        content: '**A1: watch**',
        embeds: [
          {
            title: 'Nitrate',
            description: '40 mg/L',
            fields: [{ name: 'Limit', value: '20' }],
            footer: { text: 'old' },
          },
        ],
      }),
    );
    const reply = await bot.chat.as('linnet').command('plain');
    expect(reply).toMatchObject({
      kind: 'message',
      ephemeral: false,
      text: '**A1: watch**\nNitrate\n40 mg/L\nLimit\n20\nold',
    });
    expect((await bot.chat.as('passer').messages()).at(-1)?.text).toBe(reply.text);
    expect((await bot.chat.channelMessages()).at(-1)?.text).toBe(reply.text);
  });

  it('keeps an ephemeral reply, and its later edit, to the one who asked', async () => {
    onCommand(async (interaction) => {
      await interaction.reply({ content: 'for you', flags: MessageFlags.Ephemeral });
      await interaction.editReply('for you, changed');
    });
    const linnet = bot.chat.as('linnet');
    const reply = await bot.chat.later(await linnet.command('plain'), { edits: 1 });
    expect(reply).toMatchObject({ ephemeral: true, text: 'for you, changed' });
    expect((await linnet.messages()).at(-1)).toMatchObject({ text: 'for you, changed', ephemeral: true });
    for (const messages of [await bot.chat.as('rowan').messages(), await bot.chat.channelMessages()])
      expect(messages.map((message) => message.text)).not.toContain('for you, changed');
  });

  it('waits for a deferred reply to be filled in, files included', async () => {
    onCommand(async (interaction) => {
      await interaction.deferReply();
      await interaction.editReply({
        content: 'chart',
        files: [{ attachment: Buffer.from(PICTURE.bytes), name: 'chart.png' }],
      });
    });
    const reply = await bot.chat.as('rowan').command('plain');
    expect(reply).toMatchObject({ kind: 'deferred', text: 'chart' });
    expect(reply.message?.local.isLoading).toBe(false);
    expect(reply.message?.edited_timestamp).toBeNull();
    const file = await fetch(reply.files[0] ?? '');
    expect([file.status, file.headers.get('content-type'), (await file.arrayBuffer()).byteLength]).toEqual([
      200,
      'image/png',
      3,
    ]);
  });

  it('returns at the acknowledgement when asked to', async () => {
    let fill = () => {};
    const filled = new Promise<void>((resolve) => {
      fill = resolve;
    });
    onCommand(async (interaction) => {
      await interaction.deferReply({ flags: MessageFlags.Ephemeral });
      await filled;
      await interaction.editReply('done');
    });
    const early = await bot.chat.as('rowan').command('plain', {}, { settleMs: 0 });
    expect(early).toMatchObject({ kind: 'deferred', text: '', ephemeral: true });
    fill();
    expect(await bot.chat.later(early, { edits: 1 })).toMatchObject({ text: 'done', ephemeral: true });
  });

  it('puts the first follow-up in the place of a deferred reply, and the next below it', async () => {
    onCommand(async (interaction) => {
      await interaction.deferReply({ flags: MessageFlags.Ephemeral });
      await interaction.followUp('first');
      await interaction.followUp('second');
    });
    const reply = await bot.chat.later(await bot.chat.as('rowan').command('plain'), { followUps: 1 });
    expect(reply).toMatchObject({ text: 'first', ephemeral: true });
    expect(reply.followUps.map((message) => [message.text, message.ephemeral])).toEqual([['second', false]]);
  });

  it('lets the bot fetch, change and delete its reply and its follow-ups', async () => {
    const seen: unknown[] = [];
    onCommand(async (interaction) => {
      const { resource } = await interaction.reply({ content: 'one', withResponse: true });
      seen.push(resource?.message?.content, (await interaction.fetchReply()).content);
      const more = await interaction.followUp({ content: 'two', flags: MessageFlags.Ephemeral });
      seen.push((await interaction.editReply({ content: 'three', message: more })).content);
      seen.push((await interaction.webhook.fetchMessage(more.id)).content);
      await interaction.deleteReply(more);
      await interaction.deleteReply();
      await bot.client.channels.fetch(bot.local.channelId, { force: true });
      seen.push('gone');
    });
    const before = (await bot.chat.as('rowan').messages()).length;
    await bot.chat.as('rowan').command('plain');
    await expect.poll(() => seen).toEqual(['one', 'one', 'three', 'three', 'gone']);
    expect(await bot.chat.as('rowan').messages()).toHaveLength(before);
  });

  it('offers choices while typing, with what was typed before', async () => {
    bot.onInteraction(async (interaction) => {
      if (!interaction.isAutocomplete()) return;
      const typed = interaction.options.getFocused();
      await interaction.respond([{ name: `${typed}1 at ${interaction.options.getNumber('nitrate')}`, value: 'A1' }]);
    });
    expect(await bot.chat.as('linnet').complete('reading log', 'tub', 'A', { nitrate: 20 })).toEqual([
      { name: 'A1 at 20', value: 'A1' },
    ]);
    await expect(bot.chat.as('linnet').complete('reading log', 'nitrate', '2')).rejects.toThrow('does not complete');
  });

  it('takes part in another channel', async () => {
    onCommand((interaction) => interaction.reply(interaction.channelId));
    const { id } = await bot.chat.addChannel('packing');
    const reply = await bot.chat.as('linnet').in('packing').command('plain');
    expect(reply.text).toBe(id);
    expect((await bot.chat.channelMessages('packing')).map((message) => message.text)).toEqual([id]);
  });
});
