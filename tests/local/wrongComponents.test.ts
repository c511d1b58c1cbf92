import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { expectRefusal, type Refusal } from './expectRefusal.ts';
import { type RawBot, startRawBot } from './rawBot.ts';

const text = (length: number) => 'x'.repeat(length);
const many = <T>(count: number, entry: (index: number) => T) =>
  Array.from({ length: count }, (_, index) => entry(index));
const row = (...components: object[]) => ({ type: 1, components });
const button = (more: object = {}) => ({ type: 2, style: 2, label: 'b', custom_id: 'b', ...more });
const option = (value: string, more: object = {}) => ({ label: value, value, ...more });
const select = (more: object = {}) => ({ type: 3, custom_id: 's', options: [option('1'), option('2')], ...more });
const shown = (content: string) => ({ type: 10, content });
const section = (more: object = {}) => ({ type: 9, components: [shown('s')], accessory: button(), ...more });
const gallery = (count: number) => ({
  type: 12,
  items: many(count, () => ({ media: { url: 'https://example.com/a.png' } })),
});

const inRow = 'components.0.components.0';
const tooLong = 'BASE_TYPE_MAX_LENGTH';
const tooShort = 'BASE_TYPE_MIN_LENGTH';
const needed = 'BASE_TYPE_REQUIRED';
const exclusive = 'BUTTON_COMPONENT_CUSTOM_ID_URL_MUTUALLY_EXCLUSIVE';
const legacyField = 'MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2';

/** Components in the older form that the service refuses beside a content. */
const WRONG_ROWS: [what: string, components: object[], refusal: Refusal][] = [
  [
    'six rows',
    many(6, (index) => row(button({ custom_id: `${index}` }))),
    { field: 'components', is: 'BASE_TYPE_BAD_LENGTH' },
  ],
  [
    'six buttons in a row',
    [row(...many(6, (index) => button({ custom_id: `${index}` })))],
    { field: 'components.0.components', is: tooLong },
  ],
  ['an empty row', [row()], { field: 'components.0.components', is: tooShort }],
  [
    'a select beside a button',
    [row(select(), button())],
    { field: 'components.0.components', is: 'COMPONENT_LAYOUT_WIDTH_EXCEEDED' },
  ],
  [
    'two selects in a row',
    [row(select(), select({ custom_id: 't' }))],
    { field: 'components.0.components', is: 'COMPONENT_LAYOUT_WIDTH_EXCEEDED' },
  ],
  ['a button outside a row', [button()], { field: 'components.0.type', is: 'UNION_TYPE_CHOICES' }],
  ['an unknown kind', [{ type: 99 }], { field: 'components.0.type', is: 'UNION_TYPE_CHOICES' }],
  ['a newer kind without its flag', [shown('t')], { field: 'components.0.type', is: 'UNION_TYPE_CHOICES' }],
  [
    'a custom id used twice',
    [row(button(), button({ label: 'c' }))],
    { field: 'components', is: 'COMPONENT_CUSTOM_ID_DUPLICATED' },
  ],
  ['a button label of 81', [row(button({ label: text(81) }))], { field: `${inRow}.label`, is: tooLong }],
  ['a custom id of 101', [row(button({ custom_id: text(101) }))], { field: `${inRow}.custom_id`, is: tooLong }],
  ['an empty custom id', [row(button({ custom_id: '' }))], { field: `${inRow}.custom_id`, is: needed }],
  ['a button without custom id', [row(button({ custom_id: undefined }))], { field: `${inRow}.custom_id`, is: needed }],
  [
    'a button without words',
    [row(button({ label: undefined }))],
    { field: `${inRow}.label`, is: 'BUTTON_COMPONENT_LABEL_REQUIRED' },
  ],
  ['a button of an unknown style', [row(button({ style: 7 }))], { field: `${inRow}.style`, is: 'BASE_TYPE_CHOICES' }],
  ['a link without url', [row(button({ style: 5, custom_id: undefined }))], { field: `${inRow}.url`, is: needed }],
  [
    'a link with a custom id',
    [row(button({ style: 5, url: 'https://example.com' }))],
    { field: `${inRow}.custom_id`, is: exclusive },
  ],
  ['a button with a url', [row(button({ url: 'https://example.com' }))], { field: `${inRow}.url`, is: exclusive }],
  [
    'a url of 513',
    [row(button({ style: 5, custom_id: undefined, url: `https://example.com/${text(493)}` }))],
    { field: `${inRow}.url`, is: tooLong },
  ],
  [
    '26 options',
    [row(select({ options: many(26, (index) => option(`${index}`)) }))],
    { field: `${inRow}.options`, is: tooLong },
  ],
  ['no options', [row(select({ options: [] }))], { field: `${inRow}.options`, is: tooShort }],
  [
    'an option label of 101',
    [row(select({ options: [option('1', { label: text(101) })] }))],
    { field: `${inRow}.options.0.label`, is: tooLong },
  ],
  [
    'an option value of 101',
    [row(select({ options: [option(text(101), { label: 'l' })] }))],
    { field: `${inRow}.options.0.value`, is: tooLong },
  ],
  [
    'an option description of 101',
    [row(select({ options: [option('1', { description: text(101) })] }))],
    { field: `${inRow}.options.0.description`, is: tooLong },
  ],
  [
    'an option value used twice',
    [row(select({ options: [option('1'), option('1')] }))],
    { field: `${inRow}.options.1.value`, is: 'SELECT_COMPONENT_OPTION_VALUE_DUPLICATED' },
  ],
  [
    'more chosen beforehand than may be',
    [row(select({ options: [option('1', { default: true }), option('2', { default: true })] }))],
    { field: `${inRow}.options`, is: 'SELECT_COMPONENT_TOO_MANY_DEFAULT_VALUES' },
  ],
  ['a placeholder of 151', [row(select({ placeholder: text(151) }))], { field: `${inRow}.placeholder`, is: tooLong }],
  [
    'at least more than at most',
    [row(select({ min_values: 2, max_values: 1 }))],
    { field: `${inRow}.min_values`, is: 'NUMBER_TYPE_MAX' },
  ],
  [
    'at most more than there are',
    [row(select({ max_values: 3 }))],
    { field: `${inRow}.max_values`, is: 'NUMBER_TYPE_MAX' },
  ],
  ['at most 26', [row(select({ max_values: 26 }))], { field: `${inRow}.max_values`, is: 'NUMBER_TYPE_MAX' }],
  ['at least 26', [row(select({ min_values: 26 }))], { field: `${inRow}.min_values`, is: 'NUMBER_TYPE_MAX' }],
  ['at most none', [row(select({ max_values: 0 }))], { field: `${inRow}.max_values`, is: 'NUMBER_TYPE_MIN' }],
];

/** Bodies in the newer form that the service refuses. */
const WRONG_V2: [what: string, body: object, refusal: Refusal][] = [
  [
    '41 components, nested ones counted',
    { components: [{ type: 17, components: many(40, () => shown('t')) }] },
    { field: 'components', is: 'COMPONENT_MAX_TOTAL_COMPONENTS_EXCEEDED' },
  ],
  ['41 components side by side', { components: many(41, () => shown('t')) }, { field: 'components', is: tooLong }],
  [
    '14 sections in a container',
    {
      components: [
        { type: 17, components: many(14, (index) => section({ accessory: button({ custom_id: `${index}` }) })) },
      ],
    },
    { field: 'components', is: 'COMPONENT_MAX_TOTAL_COMPONENTS_EXCEEDED' },
  ],
  [
    '4001 characters of text',
    { components: [shown(text(2000)), shown(text(2001))] },
    { field: 'components', is: 'COMPONENT_DISPLAYABLE_TEXT_SIZE_EXCEEDED' },
  ],
  ['an empty text', { components: [shown('')] }, { field: 'components.0.content', is: needed }],
  ['a text of blanks', { components: [shown('  ')] }, { field: 'components.0.content', is: needed }],
  ['content beside components', { content: 'c', components: [shown('t')] }, { field: 'content', is: legacyField }],
  [
    'embeds beside components',
    { embeds: [{ title: 't' }], components: [shown('t')] },
    { field: 'embeds', is: legacyField },
  ],
  [
    'stickers beside components',
    { sticker_ids: ['1'], components: [shown('t')] },
    { field: 'sticker_ids', is: legacyField },
  ],
  [
    'a poll beside components',
    { poll: { question: { text: 'q' }, answers: [{ poll_media: { text: 'a' } }] }, components: [shown('t')] },
    { field: 'poll', is: legacyField },
  ],
  ['no components', { components: [] }, { status: 400, code: 50006 }],
  [
    'a section without text',
    { components: [section({ components: [] })] },
    { field: 'components.0.components', is: tooShort },
  ],
  [
    'a section of four texts',
    { components: [section({ components: many(4, () => shown('t')) })] },
    { field: 'components.0.components', is: tooLong },
  ],
  [
    'a section without accessory',
    { components: [section({ accessory: undefined })] },
    { field: 'components.0.accessory', is: needed },
  ],
  ['a gallery of none', { components: [gallery(0)] }, { field: 'components.0.items', is: tooShort }],
  ['a gallery of 11', { components: [gallery(11)] }, { field: 'components.0.items', is: tooLong }],
  [
    'a container in a container',
    { components: [{ type: 17, components: [{ type: 17, components: [shown('t')] }] }] },
    { field: 'components.0.components.0.type', is: 'UNION_TYPE_CHOICES' },
  ],
  [
    'an empty container',
    { components: [{ type: 17, components: [] }] },
    { field: 'components.0.components', is: tooShort },
  ],
  [
    'a file from elsewhere',
    { components: [{ type: 13, file: { url: 'https://example.com/a.csv' } }] },
    { field: 'components.0.file.url', is: 'URL_TYPE_INVALID_SCHEME' },
  ],
  [
    'a file that was not sent along',
    { components: [{ type: 13, file: { url: 'attachment://a.csv' } }] },
    { field: 'components', is: 'ATTACHMENT_NOT_FOUND' },
  ],
  [
    'a custom id used twice, once in a section',
    { components: [section(), row(button())] },
    { field: 'components', is: 'COMPONENT_CUSTOM_ID_DUPLICATED' },
  ],
  [
    'a component number used twice',
    {
      components: [
        { ...shown('t'), id: 5 },
        { ...shown('u'), id: 5 },
      ],
    },
    { field: 'components', is: 'COMPONENT_ID_DUPLICATED' },
  ],
  [
    'a picture text of 1025',
    { components: [{ type: 12, items: [{ media: { url: 'https://example.com/a.png' }, description: text(1025) }] }] },
    { field: 'components.0.items.0.description', is: tooLong },
  ],
];

describe('components are refused with', () => {
  let bot: RawBot;
  let path: string;
  beforeAll(async () => {
    bot = await startRawBot();
    path = `/channels/${bot.local.channelId}/messages`;
  });
  afterAll(() => bot.close());

  it.each(WRONG_ROWS)('%s', async (_what, components, refusal) => {
    expectRefusal(await bot.send('POST', path, { content: 'c', components }), refusal);
  });

  it.each(WRONG_V2)('%s (newer form)', async (_what, body, refusal) => {
    expectRefusal(await bot.send('POST', path, { flags: 32_768, ...body }), refusal);
  });

  it('but 13 sections in a container, exactly 40 components, are taken', async () => {
    const sections = many(13, (index) => section({ accessory: button({ custom_id: `${index}` }) }));
    const answer = await bot.send('POST', path, { flags: 32_768, components: [{ type: 17, components: sections }] });
    expect(answer.status).toBe(200);
  });

  it('but five rows of five buttons are taken', async () => {
    const rows = many(5, (line) => row(...many(5, (index) => button({ custom_id: `${line}-${index}` }))));
    expect((await bot.send('POST', path, { components: rows })).status).toBe(200);
  });
});
