import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ManualClock } from '../../src/local/clock.ts';
import { expectRefusal, type Refusal } from './expectRefusal.ts';
import { type RawBot, startRawBot } from './rawBot.ts';

const text = (length: number) => 'x'.repeat(length);
const many = <T>(count: number, entry: (index: number) => T) =>
  Array.from({ length: count }, (_, index) => entry(index));
const command = (more: object = {}) => ({ name: 'c', description: 'd', ...more });
const option = (more: object = {}) => ({ type: 3, name: 'o', description: 'd', ...more });
const withOption = (more: object) => command({ options: [option(more)] });
const choice = (name: string, value: string = name) => ({ name, value });

const tooLong = 'BASE_TYPE_MAX_LENGTH';
const needed = 'BASE_TYPE_REQUIRED';
const badName = 'APPLICATION_COMMAND_INVALID_NAME';
const tooMuch = 'NUMBER_TYPE_MAX';
const tooBig = 'APPLICATION_COMMAND_TOO_LARGE';
const choiceTwice = 'APPLICATION_COMMAND_OPTIONS_CHOICE_NAME_ALREADY_EXISTS';
/** Nine options of 904 characters each, with the command's own 2 over the limit of 8000. */
const heavy = command({
  options: many(9, (index) =>
    option({
      name: `o${index}`,
      description: text(100),
      choices: many(8, (at) => choice(`${at}`.padEnd(50, 'n'), text(50))),
    }),
  ),
});

/** Commands that the service refuses, and how. */
const WRONG: [what: string, body: unknown, refusal: Refusal][] = [
  ['capitals in its name', command({ name: 'Reading' }), { field: 'name', is: badName }],
  ['a blank in its name', command({ name: 'a b' }), { field: 'name', is: badName }],
  ['a sign in its name', command({ name: 'a!' }), { field: 'name', is: badName }],
  ['a name of 33', command({ name: text(33) }), { field: 'name', is: tooLong }],
  ['no name', { description: 'd' }, { field: 'name', is: needed }],
  ['no description', { name: 'c' }, { field: 'description', is: needed }],
  ['a description of 101', command({ description: text(101) }), { field: 'description', is: tooLong }],
  [
    '26 options',
    command({ options: many(26, (index) => option({ name: `o${index}` })) }),
    { field: 'options', is: tooLong },
  ],
  ['an option of an unknown kind', withOption({ type: 12 }), { field: 'options.0.type', is: 'UNION_TYPE_CHOICES' }],
  ['an option name with capitals', withOption({ name: 'Tub' }), { field: 'options.0.name', is: badName }],
  ['an option without description', withOption({ description: '' }), { field: 'options.0.description', is: needed }],
  [
    'an option description of 101',
    withOption({ description: text(101) }),
    { field: 'options.0.description', is: tooLong },
  ],
  [
    'an option name used twice',
    command({ options: [option(), option()] }),
    { field: 'options.1.name', is: 'APPLICATION_COMMAND_OPTIONS_NAME_ALREADY_EXISTS' },
  ],
  [
    'a needed option after another',
    command({ options: [option(), option({ name: 'p', required: true })] }),
    { field: 'options.1', is: 'APPLICATION_COMMAND_OPTIONS_REQUIRED_INVALID' },
  ],
  [
    'a needed option after another in a sub-command',
    command({
      options: [{ type: 1, name: 's', description: 'd', options: [option(), option({ name: 'p', required: true })] }],
    }),
    { field: 'options.0.options.1', is: 'APPLICATION_COMMAND_OPTIONS_REQUIRED_INVALID' },
  ],
  [
    'a sub-command beside an option',
    command({ options: [option(), { type: 1, name: 's', description: 'd' }] }),
    { field: 'options', is: 'APPLICATION_COMMAND_OPTIONS_TYPE_INVALID' },
  ],
  [
    'a sub-command in a sub-command',
    command({
      options: [{ type: 1, name: 's', description: 'd', options: [{ type: 1, name: 't', description: 'd' }] }],
    }),
    { field: 'options.0.options.0.type', is: 'UNION_TYPE_CHOICES' },
  ],
  [
    '26 choices',
    withOption({ choices: many(26, (index) => choice(`${index}`)) }),
    { field: 'options.0.choices', is: tooLong },
  ],
  [
    'a choice name of 101',
    withOption({ choices: [choice(text(101), 'v')] }),
    { field: 'options.0.choices.0.name', is: tooLong },
  ],
  [
    'a choice value of 101',
    withOption({ choices: [choice('n', text(101))] }),
    { field: 'options.0.choices.0.value', is: tooLong },
  ],
  [
    'a choice name used twice',
    withOption({ choices: [choice('n', '1'), choice('n', '2')] }),
    { field: 'options.0.choices.1.name', is: choiceTwice },
  ],
  [
    'a choice of the wrong kind',
    withOption({ choices: [{ name: 'n', value: 5 }] }),
    { field: 'options.0.choices.0.value', is: 'BASE_TYPE_BAD_TYPE' },
  ],
  [
    'choices on an option that completes',
    withOption({ autocomplete: true, choices: [choice('n')] }),
    { field: 'options.0.autocomplete', is: 'APPLICATION_COMMAND_OPTIONS_AUTOCOMPLETE_WITH_CHOICES' },
  ],
  [
    'a least number above the greatest',
    withOption({ type: 10, min_value: 2, max_value: 1 }),
    { field: 'options.0.min_value', is: tooMuch },
  ],
  [
    'a least length above the greatest',
    withOption({ min_length: 2, max_length: 1 }),
    { field: 'options.0.min_length', is: tooMuch },
  ],
  ['a length of 6001', withOption({ max_length: 6001 }), { field: 'options.0.max_length', is: tooMuch }],
  ['more than 8000 characters in all', heavy, { field: '', is: tooBig }],
  [
    'a description on a user command',
    command({ type: 2, name: 'Look up' }),
    { field: 'description', is: 'APPLICATION_COMMAND_INVALID_DESCRIPTION' },
  ],
  [
    'options on a user command',
    { type: 2, name: 'Look up', options: [option()] },
    { field: 'options', is: 'APPLICATION_COMMAND_INVALID_OPTIONS' },
  ],
  ['no contexts', command({ contexts: [] }), { field: 'contexts', is: 'BASE_TYPE_MIN_LENGTH' }],
];

describe('a command is refused with', () => {
  let bot: RawBot;
  let path: string;
  beforeAll(async () => {
    bot = await startRawBot();
    path = `/applications/${bot.local.applicationId}/guilds/${bot.local.guildId}/commands`;
  });
  afterAll(() => bot.close());

  it.each(WRONG)('%s', async (_what, body, refusal) => {
    expectRefusal(await bot.send('POST', path, body), refusal);
    const inList =
      'field' in refusal ? { ...refusal, field: refusal.field === '' ? '0' : `0.${refusal.field}` } : refusal;
    expectRefusal(await bot.send('PUT', path, [body]), inList);
    expect(await bot.chat.commands()).toEqual([]);
  });

  it('a change that makes it wrong', async () => {
    const made = (await bot.send('POST', path, command())).json as { id: string };
    expectRefusal(await bot.send('PATCH', `${path}/${made.id}`, { name: 'C' }), { field: 'name', is: badName });
    expectRefusal(await bot.send('PATCH', `${path}/${made.id}`, { description: text(101) }), {
      field: 'description',
      is: tooLong,
    });
    expect((await bot.send('DELETE', `${path}/${made.id}`)).status).toBe(204);
  });

  it('an id that is not there', async () => {
    for (const method of ['GET', 'DELETE'])
      expectRefusal(await bot.send(method, `${path}/1`), { status: 404, code: 10063 });
    expectRefusal(await bot.send('PATCH', `${path}/1`, {}), { status: 404, code: 10063 });
  });
});

describe('a list of commands is refused', () => {
  let bot: RawBot;
  let path: string;
  const clock = new ManualClock(Date.UTC(2026, 10, 25));
  beforeAll(async () => {
    bot = await startRawBot({ clock });
    path = `/applications/${bot.local.applicationId}/guilds/${bot.local.guildId}/commands`;
  });
  afterAll(() => bot.close());

  it('when it is none', async () => {
    expectRefusal(await bot.send('PUT', path, command()), { field: '', is: 'BASE_TYPE_BAD_TYPE' });
  });

  it('when a name stands in it twice', async () => {
    const twice = [command(), command({ description: 'e' })];
    expectRefusal(await bot.send('PUT', path, twice), { field: '1.name', is: 'APPLICATION_COMMANDS_DUPLICATE_NAME' });
  });

  it('when it holds more than 100', async () => {
    const list = many(101, (index) => command({ name: `c${index}` }));
    expectRefusal(await bot.send('PUT', path, list), { status: 400, code: 30032 });
  });

  it('when more than 200 were newly made on one day, but not on the next', async () => {
    const list = (stem: string) => many(100, (index) => command({ name: `${stem}${index}` }));
    expect((await bot.send('PUT', path, list('a'))).status).toBe(200);
    expectRefusal(await bot.send('POST', path, command({ name: 'one-more' })), { status: 400, code: 30032 });
    expect((await bot.send('PUT', path, list('a'))).status).toBe(200);
    expect((await bot.send('PUT', path, list('b'))).status).toBe(200);
    expectRefusal(await bot.send('PUT', path, [command({ name: 'c' })]), { status: 400, code: 30034 });
    clock.advance(24 * 3_600_000);
    expect((await bot.send('PUT', path, [command({ name: 'c' })])).status).toBe(200);
  });
});
