import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { expectRefusal, type Refusal } from './expectRefusal.ts';
import { type RawBot, startRawBot } from './rawBot.ts';

const text = (length: number) => 'x'.repeat(length);
const many = <T>(count: number, entry: (index: number) => T) =>
  Array.from({ length: count }, (_, index) => entry(index));
const field = (name: string, value: string) => ({ name, value });
const embedded = (embed: object) => ({ embeds: [{ description: 'd', ...embed }] });
const ids = (count: number) => many(count, (index) => String(1000 + index));

const tooLong = 'BASE_TYPE_MAX_LENGTH';
const needed = 'BASE_TYPE_REQUIRED';

/** Bodies of a new message that the service refuses, and how. */
const WRONG: [what: string, body: unknown, refusal: Refusal][] = [
  ['2001 characters of content', { content: text(2001) }, { field: 'content', is: tooLong }],
  ['more content than the published schema allows', { content: text(4001) }, { field: 'content', is: tooLong }],
  ['nothing', {}, { status: 400, code: 50006 }],
  ['only blanks', { content: ' \n ' }, { status: 400, code: 50006 }],
  ['content that is no text', { content: 5 }, { field: 'content', is: 'BASE_TYPE_BAD_TYPE' }],
  ['11 embeds', { embeds: many(11, () => ({ title: 't' })) }, { field: 'embeds', is: tooLong }],
  ['an embed title of 257', embedded({ title: text(257) }), { field: 'embeds.0.title', is: tooLong }],
  [
    'an embed description of 4097',
    embedded({ description: text(4097) }),
    { field: 'embeds.0.description', is: tooLong },
  ],
  ['26 embed fields', embedded({ fields: many(26, () => field('n', 'v')) }), { field: 'embeds.0.fields', is: tooLong }],
  [
    'a field name of 257',
    embedded({ fields: [field(text(257), 'v')] }),
    { field: 'embeds.0.fields.0.name', is: tooLong },
  ],
  [
    'a field value of 1025',
    embedded({ fields: [field('n', text(1025))] }),
    { field: 'embeds.0.fields.0.value', is: tooLong },
  ],
  ['an empty field name', embedded({ fields: [field('', 'v')] }), { field: 'embeds.0.fields.0.name', is: needed }],
  ['an empty field value', embedded({ fields: [field('n', ' ')] }), { field: 'embeds.0.fields.0.value', is: needed }],
  ['a footer of 2049', embedded({ footer: { text: text(2049) } }), { field: 'embeds.0.footer.text', is: tooLong }],
  ['an author of 257', embedded({ author: { name: text(257) } }), { field: 'embeds.0.author.name', is: tooLong }],
  ['an empty embed', { embeds: [{}] }, { field: 'embeds.0.description', is: needed }],
  [
    '6001 characters of embeds',
    { embeds: [{ description: text(4000) }, { description: text(2001) }] },
    { field: 'embeds', is: 'MAX_EMBED_SIZE_EXCEEDED' },
  ],
  ['an embed url that is none', embedded({ url: 'nowhere' }), { field: 'embeds.0.url', is: 'URL_TYPE_INVALID_URL' }],
  [
    'an embed url of a wrong kind',
    embedded({ url: 'ftp://example.com/a' }),
    { field: 'embeds.0.url', is: 'URL_TYPE_INVALID_SCHEME' },
  ],
  [
    'a picture of a wrong kind',
    embedded({ image: { url: 'file:///a.png' } }),
    { field: 'embeds.0.image.url', is: 'URL_TYPE_INVALID_SCHEME' },
  ],
  [
    'a thumbnail of a wrong kind',
    embedded({ thumbnail: { url: 'ftp://example.com/a.png' } }),
    { field: 'embeds.0.thumbnail.url', is: 'URL_TYPE_INVALID_SCHEME' },
  ],
  ['a colour beyond 24 bits', embedded({ color: 16_777_216 }), { field: 'embeds.0.color', is: 'NUMBER_TYPE_MAX' }],
  ['a negative colour', embedded({ color: -1 }), { field: 'embeds.0.color', is: 'NUMBER_TYPE_MIN' }],
  ['a time that is none', embedded({ timestamp: 'soon' }), { field: 'embeds.0.timestamp', is: 'STRING_TYPE_REGEX' }],
  [
    '101 users to mention',
    { content: 'c', allowed_mentions: { users: ids(101) } },
    { field: 'allowed_mentions.users', is: tooLong },
  ],
  [
    '101 roles to mention',
    { content: 'c', allowed_mentions: { roles: ids(101) } },
    { field: 'allowed_mentions.roles', is: tooLong },
  ],
  [
    'all users and some users',
    { content: 'c', allowed_mentions: { parse: ['users'], users: ['1'] } },
    { field: 'allowed_mentions.parse', is: 'MESSAGE_ALLOWED_MENTIONS_PARSE_EXCLUSIVE' },
  ],
  [
    'all roles and some roles',
    { content: 'c', allowed_mentions: { parse: ['roles'], roles: ['1'] } },
    { field: 'allowed_mentions.parse', is: 'MESSAGE_ALLOWED_MENTIONS_PARSE_EXCLUSIVE' },
  ],
  [
    'an unknown kind of mention',
    { content: 'c', allowed_mentions: { parse: ['cats'] } },
    { field: 'allowed_mentions.parse.0', is: 'BASE_TYPE_CHOICES' },
  ],
  ['a nonce of 26', { content: 'c', nonce: text(26) }, { field: 'nonce', is: tooLong }],
  ['a nonce to enforce that is missing', { content: 'c', enforce_nonce: true }, { field: 'nonce', is: needed }],
  [
    'a reply to nothing',
    { content: 'c', message_reference: { message_id: '1' } },
    { field: 'message_reference', is: 'REPLIES_UNKNOWN_MESSAGE' },
  ],
  [
    'a picture that was not sent along',
    embedded({ image: { url: 'attachment://a.png' } }),
    { field: 'embeds', is: 'ATTACHMENT_NOT_FOUND' },
  ],
  [
    '11 attachments',
    { content: 'c', attachments: many(11, (index) => ({ id: String(index) })) },
    { field: 'attachments', is: tooLong },
  ],
  [
    'an attachment text of 1025',
    { content: 'c', attachments: [{ id: '0', description: text(1025) }] },
    { field: 'attachments.0.description', is: tooLong },
  ],
  ['four stickers', { sticker_ids: ids(4) }, { field: 'sticker_ids', is: tooLong }],
];

describe('a new message is refused with', () => {
  let bot: RawBot;
  let path: string;
  beforeAll(async () => {
    bot = await startRawBot();
    path = `/channels/${bot.local.channelId}/messages`;
  });
  afterAll(() => bot.close());

  it.each(WRONG)('%s', async (_what, body, refusal) => {
    expectRefusal(await bot.send('POST', path, body), refusal);
    expect((await bot.chat.refusals()).at(-1)?.body).toEqual(body);
  });

  it('11 files', async () => {
    const files = many(11, (index) => ({ name: `${index}.png`, bytes: new Uint8Array(1) }));
    expectRefusal(await bot.sendForm('POST', path, { content: 'c' }, files), { field: 'files', is: tooLong });
  });

  it('a file above 10 MiB', async () => {
    const files = [{ name: 'big.png', bytes: new Uint8Array(10 * 1024 * 1024 + 1) }];
    expectRefusal(await bot.sendForm('POST', path, { content: 'c' }, files), {
      field: 'files.0',
      is: 'FILE_SIZE_EXCEEDED',
    });
  });

  it('more than 25 MiB in all', async () => {
    const files = many(3, (index) => ({ name: `${index}.png`, bytes: new Uint8Array(9 * 1024 * 1024) }));
    expectRefusal(await bot.sendForm('POST', path, { content: 'c' }, files), { status: 413, code: 40005 });
  });

  it('a body that is not JSON', async () => {
    expectRefusal(await bot.send('POST', path, '{"content":'), { status: 400, code: 50109 });
  });

  it('a form that is broken off', async () => {
    const headers = { 'content-type': 'multipart/form-data; boundary=b' };
    expectRefusal(await bot.send('POST', path, '--b\r\nnothing', headers), { status: 400, code: 50109 });
  });

  it('none of these left anything in the channel', async () => {
    expect(await bot.chat.channelMessages()).toEqual([]);
  });
});

describe('an edit is refused', () => {
  let bot: RawBot;
  let path: string;
  const flagV2 = 32_768;
  const post = async (body: object) => ((await bot.send('POST', path, body)).json as { id: string }).id;
  beforeAll(async () => {
    bot = await startRawBot();
    path = `/channels/${bot.local.channelId}/messages`;
  });
  afterAll(() => bot.close());

  it('when nothing would be left', async () => {
    const id = await post({ content: 'c' });
    expectRefusal(await bot.send('PATCH', `${path}/${id}`, { content: '' }), { status: 400, code: 50006 });
  });

  it('when its content is too long', async () => {
    const id = await post({ content: 'c' });
    expectRefusal(await bot.send('PATCH', `${path}/${id}`, { content: text(2001) }), { field: 'content', is: tooLong });
  });

  it('when it gives content to a message in the newer form, also with the flag left out', async () => {
    const id = await post({ flags: flagV2, components: [{ type: 10, content: 'shown' }] });
    for (const flags of [{}, { flags: 0 }])
      expectRefusal(await bot.send('PATCH', `${path}/${id}`, { content: 'c', ...flags }), {
        field: 'content',
        is: 'MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2',
      });
  });

  it('when it turns a message to the newer form and leaves its content', async () => {
    const id = await post({ content: 'c' });
    const body = { flags: flagV2, components: [{ type: 10, content: 'shown' }] };
    expectRefusal(await bot.send('PATCH', `${path}/${id}`, body), {
      field: 'content',
      is: 'MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2',
    });
  });

  it('when it takes the last component of a message in the newer form', async () => {
    const id = await post({ flags: flagV2, components: [{ type: 10, content: 'shown' }] });
    expectRefusal(await bot.send('PATCH', `${path}/${id}`, { components: [] }), { status: 400, code: 50006 });
  });

  it('when the message is of somebody else', async () => {
    const said = await bot.chat.as('linnet').say('hello');
    expectRefusal(await bot.send('PATCH', `${path}/${said.message.id}`, { content: 'c' }), {
      status: 403,
      code: 50005,
    });
  });

  it('when the message is not there', async () => {
    expectRefusal(await bot.send('PATCH', `${path}/1`, { content: 'c' }), { status: 404, code: 10008 });
  });
});
