import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Reply } from '../support/chat/driver.ts';
import { expectRefusal, type Refusal } from './expectRefusal.ts';
import { type RawBot, startRawBot, type WireInteraction } from './rawBot.ts';

const text = (length: number) => 'x'.repeat(length);
const many = <T>(count: number, entry: (index: number) => T) =>
  Array.from({ length: count }, (_, index) => entry(index));
const input = (more: object = {}) => ({ type: 4, custom_id: 'i', style: 1, ...more });
const label = (more: object = {}) => ({ type: 18, label: 'l', component: input(), ...more });
const labelled = (more: object) => label({ component: input(more) });
const modal = (more: object = {}) => ({
  type: 9,
  data: { custom_id: 'm', title: 't', components: [label()], ...more },
});
const choices = (list: object[]) => ({ type: 8, data: { choices: list } });

const tooLong = 'BASE_TYPE_MAX_LENGTH';
const needed = 'BASE_TYPE_REQUIRED';
const notAllowed = 'BASE_TYPE_CHOICES';
const field = 'data.components.0.component';

const COMMANDS = [
  { name: 'plain', description: 'd' },
  {
    name: 'typed',
    description: 'd',
    options: [
      { type: 3, name: 'text', description: 'd', autocomplete: true },
      { type: 4, name: 'whole', description: 'd', autocomplete: true },
    ],
  },
];

/** Answers to a command that the service refuses. */
const WRONG_FOR_COMMAND: [what: string, body: unknown, refusal: Refusal][] = [
  ['no type', {}, { field: 'type', is: needed }],
  ['an unknown type', { type: 77 }, { field: 'type', is: notAllowed }],
  ['an update', { type: 7, data: { content: 'c' } }, { field: 'type', is: notAllowed }],
  ['a deferred update', { type: 6 }, { field: 'type', is: notAllowed }],
  ['choices', choices([]), { field: 'type', is: notAllowed }],
  ['an empty message', { type: 4, data: {} }, { status: 400, code: 50006 }],
  ['content of 2001', { type: 4, data: { content: text(2001) } }, { field: 'data.content', is: tooLong }],
  [
    '6001 characters of embeds',
    { type: 4, data: { embeds: [{ description: text(4096) }, { description: text(1905) }] } },
    { field: 'data.embeds', is: 'MAX_EMBED_SIZE_EXCEEDED' },
  ],
  [
    'six rows',
    {
      type: 4,
      data: {
        content: 'c',
        components: many(6, (index) => ({
          type: 1,
          components: [{ type: 2, style: 1, label: 'b', custom_id: `${index}` }],
        })),
      },
    },
    { field: 'data.components', is: 'BASE_TYPE_BAD_LENGTH' },
  ],
  [
    'a deferral with the flag of the newer form',
    { type: 5, data: { flags: 32_768 } },
    { field: 'data.flags', is: 'INVALID_FLAGS' },
  ],
  ['a form title of 46', modal({ title: text(46) }), { field: 'data.title', is: tooLong }],
  ['an empty form title', modal({ title: '' }), { field: 'data.title', is: needed }],
  ['a form id of 101', modal({ custom_id: text(101) }), { field: 'data.custom_id', is: tooLong }],
  ['a form of nothing', modal({ components: [] }), { field: 'data.components', is: 'BASE_TYPE_MIN_LENGTH' }],
  [
    'a form of six',
    modal({ components: many(6, (index) => labelled({ custom_id: `${index}` })) }),
    { field: 'data.components', is: 'BASE_TYPE_BAD_LENGTH' },
  ],
  [
    'a field label of 46',
    modal({ components: [label({ label: text(46) })] }),
    { field: 'data.components.0.label', is: tooLong },
  ],
  [
    'a field without label',
    modal({ components: [label({ label: undefined })] }),
    { field: 'data.components.0.label', is: needed },
  ],
  [
    'a field description of 101',
    modal({ components: [label({ description: text(101) })] }),
    { field: 'data.components.0.description', is: tooLong },
  ],
  [
    'a label inside a label',
    modal({ components: [labelled({ label: 'l' })] }),
    { field: `${field}.label`, is: 'TEXT_INPUT_LABEL_IN_LABEL' },
  ],
  [
    'a field id of 101',
    modal({ components: [labelled({ custom_id: text(101) })] }),
    { field: `${field}.custom_id`, is: tooLong },
  ],
  [
    'a field id used twice',
    modal({ components: [label(), label()] }),
    { field: 'data.components', is: 'COMPONENT_CUSTOM_ID_DUPLICATED' },
  ],
  [
    'a placeholder of 101',
    modal({ components: [labelled({ placeholder: text(101) })] }),
    { field: `${field}.placeholder`, is: tooLong },
  ],
  [
    'a value of 4001',
    modal({ components: [labelled({ value: text(4001) })] }),
    { field: `${field}.value`, is: tooLong },
  ],
  [
    'a value longer than the field',
    modal({ components: [labelled({ value: 'abc', max_length: 2 })] }),
    { field: `${field}.value`, is: 'BASE_TYPE_BAD_LENGTH' },
  ],
  [
    'a least length above the greatest',
    modal({ components: [labelled({ min_length: 3, max_length: 2 })] }),
    { field: `${field}.min_length`, is: 'NUMBER_TYPE_MAX' },
  ],
  [
    'a length of 4001',
    modal({ components: [labelled({ max_length: 4001 })] }),
    { field: `${field}.max_length`, is: 'NUMBER_TYPE_MAX' },
  ],
  [
    'an unknown field style',
    modal({ components: [labelled({ style: 3 })] }),
    { field: `${field}.style`, is: notAllowed },
  ],
  [
    'an older row of two fields',
    modal({ components: [{ type: 1, components: [input({ label: 'l' }), input({ label: 'm', custom_id: 'j' })] }] }),
    { field: 'data.components.0.components', is: 'COMPONENT_LAYOUT_WIDTH_EXCEEDED' },
  ],
  [
    'an older row without label',
    modal({ components: [{ type: 1, components: [input()] }] }),
    { field: 'data.components.0.components.0.label', is: needed },
  ],
  [
    'a select that takes more than it has',
    modal({
      components: [
        label({ component: { type: 3, custom_id: 's', max_values: 2, options: [{ label: 'a', value: 'a' }] } }),
      ],
    }),
    { field: `${field}.max_values`, is: 'NUMBER_TYPE_MAX' },
  ],
];

const choice = (value: unknown, name = 'n') => ({ name, value });
const value = 'data.choices.0.value';

/** Choices that the service refuses, for the option named first. */
const WRONG_CHOICES: [what: string, option: string, list: object[], refusal: Refusal][] = [
  ['26 of them', 'text', many(26, (index) => choice(`${index}`)), { field: 'data.choices', is: tooLong }],
  ['a name of 101', 'text', [choice('v', text(101))], { field: 'data.choices.0.name', is: tooLong }],
  ['an empty name', 'text', [choice('v', '')], { field: 'data.choices.0.name', is: needed }],
  ['a value of 101', 'text', [choice(text(101))], { field: value, is: 'BASE_TYPE_BAD_LENGTH' }],
  ['a number for a text', 'text', [choice(5)], { field: value, is: 'STRING_TYPE_CONVERT' }],
  ['a text for a number', 'whole', [choice('5')], { field: value, is: 'NUMBER_TYPE_COERCE' }],
  ['a fraction for a whole number', 'whole', [choice(5.5)], { field: value, is: 'NUMBER_TYPE_COERCE' }],
];

describe('an answer is refused', () => {
  let bot: RawBot;
  let waiting: { reply: Promise<Reply>; interaction: WireInteraction };
  const ask = async (reply: Promise<Reply>) => ({ reply, interaction: await bot.nextInteraction() });
  beforeAll(async () => {
    bot = await startRawBot();
    await bot.send('PUT', `/applications/${bot.local.applicationId}/guilds/${bot.local.guildId}/commands`, COMMANDS);
  });
  afterAll(() => bot.close());

  describe('to a command with', () => {
    beforeEach(async () => {
      waiting = await ask(bot.chat.as('linnet').command('plain'));
    });

    it.each(WRONG_FOR_COMMAND)('%s; it may still be answered', async (_what, body, refusal) => {
      const { interaction, reply } = waiting;
      expectRefusal(await bot.callback(interaction, body), refusal);
      expect((await bot.callback(interaction, { type: 4, data: { content: 'then rightly' } })).status).toBe(204);
      expect(await reply).toMatchObject({ text: 'then rightly' });
    });
  });

  it.each(WRONG_CHOICES)('to typing with %s', async (_what, option, list, refusal) => {
    const choosing = bot.chat.as('linnet').complete('typed', option, '');
    const interaction = await bot.nextInteraction();
    expectRefusal(await bot.callback(interaction, choices(list)), refusal);
    expect((await bot.callback(interaction, choices([]))).status).toBe(204);
    expect(await choosing).toEqual([]);
  });

  it('to typing with a message', async () => {
    const choosing = bot.chat.as('linnet').complete('typed', 'text', '');
    const interaction = await bot.nextInteraction();
    expectRefusal(await bot.callback(interaction, { type: 4, data: { content: 'c' } }), {
      field: 'type',
      is: notAllowed,
    });
    await bot.callback(interaction, choices([]));
    await choosing;
  });

  it('to a form with another form, and to a form from a command with an update', async () => {
    const { reply, interaction } = await ask(bot.chat.as('linnet').command('plain'));
    await bot.callback(interaction, modal());
    const sent = await ask(bot.chat.as('linnet').submit(await reply, { l: 'v' }));
    expectRefusal(await bot.callback(sent.interaction, modal()), { field: 'type', is: notAllowed });
    expectRefusal(await bot.callback(sent.interaction, { type: 7, data: { content: 'c' } }), {
      field: 'type',
      is: notAllowed,
    });
    await bot.callback(sent.interaction, { type: 4, data: { content: 'taken' } });
    expect(await sent.reply).toMatchObject({ text: 'taken' });
  });

  it('with a form after a deferral, and with anything a second time', async () => {
    const { reply, interaction } = await ask(bot.chat.as('linnet').command('plain', {}, { settleMs: 0 }));
    await bot.callback(interaction, { type: 5 });
    for (const body of [modal(), { type: 4, data: { content: 'again' } }, { type: 5 }])
      expectRefusal(await bot.callback(interaction, body), { status: 400, code: 40060 });
    expect(await reply).toMatchObject({ kind: 'deferred', text: '' });
  });

  it('to an interaction that never was, or with another token', async () => {
    const { reply, interaction } = await ask(bot.chat.as('linnet').command('plain'));
    const body = { type: 4, data: { content: 'c' } };
    expectRefusal(await bot.callback({ ...interaction, id: '1' }, body), { status: 404, code: 10062 });
    expectRefusal(await bot.callback({ ...interaction, token: 'other' }, body), { status: 404, code: 10062 });
    await bot.callback(interaction, body);
    await reply;
  });
});
