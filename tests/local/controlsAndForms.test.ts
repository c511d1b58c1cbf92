import { ComponentType, MessageFlags, TextInputStyle } from 'discord.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BotAndChat, startBotAndChat } from './testBot.ts';

const button = (label: string, customId: string) => ({
  type: ComponentType.Button,
  style: 1,
  label,
  custom_id: customId,
});
const row = (...components: object[]) => ({ type: ComponentType.ActionRow, components }) as never;

describe('controls and forms', () => {
  let bot: BotAndChat;
  beforeAll(async () => {
    bot = await startBotAndChat();
    await bot.client.guilds.cache.get(bot.local.guildId)?.commands.set([{ name: 'plain', description: 'No options' }]);
  });
  afterAll(async () => {
    expect(bot.problems).toEqual([]);
    expect(await bot.chat.refusals()).toEqual([]);
    await bot.close();
  });

  it('changes a message from its button, whoever presses it', async () => {
    bot.onInteraction(async (interaction) => {
      if (interaction.isChatInputCommand())
        await interaction.reply({ content: 'due', components: [row(button('Done', 'd:1'))] });
      if (interaction.isButton())
        await interaction.update({
          content: `${interaction.customId} by ${interaction.user.username}`,
          components: [],
        });
    });
    const reply = await bot.chat.as('linnet').command('plain');
    expect(reply.controls).toEqual([
      { kind: 'button', label: 'Done', customId: 'd:1', isDisabled: false, options: [] },
    ]);
    await expect(bot.chat.as('linnet').press(reply, 'Undone')).rejects.toThrow('it has: Done');
    const after = await bot.chat.as('rowan').press(reply, 'Done');
    expect(after).toMatchObject({ kind: 'update', text: 'd:1 by rowan', controls: [] });
    expect(after.message?.id).toBe(reply.message?.id);
    await expect(bot.chat.as('rowan').press(reply, 'Done')).rejects.toThrow('it has: none');
  });

  it('defers a change from a button until the message is edited', async () => {
    bot.onInteraction(async (interaction) => {
      if (interaction.isChatInputCommand())
        await interaction.reply({ content: 'due', components: [row(button('Done', 'd'))] });
      if (!interaction.isButton()) return;
      await interaction.deferUpdate();
      await interaction.editReply({ content: 'done', components: [row({ ...button('Done', 'd'), disabled: true })] });
    });
    const after = await bot.chat.as('linnet').press(await bot.chat.as('linnet').command('plain'), 'd');
    expect(after).toMatchObject({ kind: 'deferredUpdate', text: 'done' });
    await expect(bot.chat.as('linnet').press(after, 'Done')).rejects.toThrow('switched off');
  });

  it('brings what was chosen in selects of options, users and channels', async () => {
    const seen: unknown[] = [];
    const options = ['A1', 'A2', 'A3'].map((label) => ({ label: `Tub ${label}`, value: label }));
    bot.onInteraction(async (interaction) => {
      const selects = [
        row({ type: ComponentType.StringSelect, custom_id: 'tubs', placeholder: 'Which tubs', max_values: 2, options }),
        row({ type: ComponentType.UserSelect, custom_id: 'who' }),
        row({ type: ComponentType.ChannelSelect, custom_id: 'where' }),
      ];
      if (interaction.isChatInputCommand()) await interaction.reply({ content: 'choose', components: selects });
      if (interaction.isStringSelectMenu()) seen.push(interaction.values);
      if (interaction.isUserSelectMenu()) seen.push(interaction.members.map((member) => member.user.username));
      if (interaction.isChannelSelectMenu()) seen.push(interaction.channels.map((channel) => channel.id));
      if (interaction.isMessageComponent())
        await interaction.reply({ content: 'chosen', flags: MessageFlags.Ephemeral });
    });
    const linnet = bot.chat.as('linnet');
    const reply = await linnet.command('plain');
    expect(reply.controls[0]).toMatchObject({
      kind: 'select',
      label: 'Which tubs',
      options: ['Tub A1', 'Tub A2', 'Tub A3'],
    });
    await linnet.choose(reply, 'Which tubs', ['A1', 'Tub A3']);
    await linnet.choose(reply, 'who', ['rowan']);
    await linnet.choose(reply, 'where', ['elsewhere']);
    const { channels } = await bot.chat.people();
    expect(seen).toEqual([['A1', 'A3'], ['rowan'], [channels[1]?.id]]);
    await expect(linnet.choose(reply, 'Which tubs', ['A9'])).rejects.toThrow('not among');
    await expect(linnet.choose(reply, 'Which tubs', ['A1', 'A2', 'A3'])).rejects.toThrow('takes 1 to 2 choices');
  });

  it('shows a form with labels or in rows and brings back what was entered', async () => {
    const seen: unknown[] = [];
    const rows = {
      type: ComponentType.TextInput,
      custom_id: 'rows',
      style: TextInputStyle.Paragraph,
      value: 'A1 no3 20',
    };
    const older = { ...rows, custom_id: 'note', label: 'Note', required: false, value: '' };
    bot.onInteraction(async (interaction) => {
      if (interaction.isChatInputCommand())
        await interaction.showModal({
          custom_id: 'sheet',
          title: 'Readings',
          components: [{ type: ComponentType.Label, label: 'Rows', component: rows } as never, row(older)],
        });
      if (!interaction.isModalSubmit()) return;
      seen.push(
        interaction.customId,
        interaction.fields.getTextInputValue('rows'),
        interaction.fields.getTextInputValue('note'),
      );
      await interaction.reply('taken');
    });
    const linnet = bot.chat.as('linnet');
    const asked = await linnet.command('plain');
    expect(asked).toMatchObject({ kind: 'modal', form: { title: 'Readings', customId: 'sheet' } });
    expect(asked.form?.fields).toEqual([
      { label: 'Rows', customId: 'rows', value: 'A1 no3 20', isRequired: true },
      { label: 'Note', customId: 'note', value: '', isRequired: false },
    ]);
    await expect(linnet.submit(asked, { Rows: '' })).rejects.toThrow('takes 1 to 4000');
    await expect(linnet.submit(asked, { Colour: 'x' })).rejects.toThrow('no field "Colour"');
    await expect(bot.chat.as('rowan').submit(asked, {})).rejects.toThrow('no such form');
    expect(await linnet.submit(asked, { Rows: 'A1 no3 40' })).toMatchObject({ kind: 'message', text: 'taken' });
    expect(seen).toEqual(['sheet', 'A1 no3 40', '']);
  });

  it('lets a form that came from a button change that message', async () => {
    bot.onInteraction(async (interaction) => {
      const component = { type: ComponentType.TextInput, custom_id: 'why', style: TextInputStyle.Short };
      if (interaction.isChatInputCommand())
        await interaction.reply({ content: 'due', components: [row(button('Later', 'l'))] });
      if (interaction.isButton())
        await interaction.showModal({
          custom_id: 'm',
          title: 'Why',
          components: [{ type: ComponentType.Label, label: 'Reason', component } as never],
        });
      if (interaction.isModalSubmit() && interaction.isFromMessage())
        await interaction.update({ content: `later: ${interaction.fields.getTextInputValue('why')}`, components: [] });
    });
    const linnet = bot.chat.as('linnet');
    const form = await linnet.press(await linnet.command('plain'), 'Later');
    expect(await linnet.submit(form, { Reason: 'wet hands' })).toMatchObject({
      kind: 'update',
      text: 'later: wet hands',
    });
  });
});
