import { MessageFlags } from 'discord.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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
          { type: 6, name: 'partner', description: 'Who' },
          { type: 7, name: 'channel', description: 'Where' },
          { type: 11, name: 'photo', description: 'Picture' },
        ],
      },
    ],
  },
  { name: 'plain', description: 'No options' },
];

describe('interactions', () => {
  let bot: BotAndChat;
  beforeAll(async () => {
    bot = await startBotAndChat();
    await bot.client.guilds.cache.get(bot.local.guildId)?.commands.set(COMMANDS);
  });
  afterAll(() => bot.close());

  it('brings a slash command with its options resolved, and shows the reply to everybody', async () => {
    const seen: unknown[] = [];
    bot.onInteraction(async (interaction) => {
      if (!interaction.isChatInputCommand()) return;
      seen.push(
        interaction.options.getSubcommand(),
        interaction.options.getString('tub'),
        interaction.options.getNumber('nitrate'),
        interaction.options.getMember('partner')?.user.username,
        interaction.options.getChannel('channel')?.name,
        interaction.options.getAttachment('photo')?.name,
        interaction.memberPermissions.has('ManageGuild'),
      );
      await interaction.reply({ content: '**A1: watch**', embeds: [{ title: 'Nitrate', description: '40 mg/L' }] });
    });
    const reply = await bot.chat.as('linnet').command('reading log', {
      tub: 'A1',
      nitrate: 40,
      partner: 'rowan',
      channel: 'elsewhere',
      photo: { filename: 'tub.png', contentType: 'image/png', bytes: new Uint8Array([1, 2, 3]) },
    });
    expect(seen).toEqual(['log', 'A1', 40, 'rowan', 'elsewhere', 'tub.png', false]);
    expect(reply).toMatchObject({ kind: 'message', ephemeral: false, text: '**A1: watch**\nNitrate\n40 mg/L' });
    expect((await bot.chat.as('passer').messages()).at(-1)?.text).toContain('A1: watch');
  });

  it('keeps an ephemeral reply to the one who asked', async () => {
    bot.onInteraction(async (interaction) => {
      if (interaction.isChatInputCommand())
        await interaction.reply({ content: 'for you', flags: MessageFlags.Ephemeral });
    });
    const reply = await bot.chat.as('linnet').command('plain');
    expect(reply).toMatchObject({ ephemeral: true, text: 'for you' });
    expect((await bot.chat.as('linnet').messages()).at(-1)?.text).toBe('for you');
    expect((await bot.chat.as('rowan').messages()).map((message) => message.text)).not.toContain('for you');
  });
});
