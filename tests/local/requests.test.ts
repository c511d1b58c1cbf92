import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { expectRefusal, type Refusal } from './expectRefusal.ts';
import { type RawBot, startRawBot } from './rawBot.ts';

const GUILD = '1100000000000000001';
const CHANNEL = '1100000000000000002';
const APPLICATION = '1100000000000000004';

/** Requests about what is not there, or that no route takes. */
const WRONG: [what: string, method: string, path: string, body: unknown, refusal: Refusal][] = [
  ['a route that there is not', 'GET', '/nothing', undefined, { status: 404, code: 0 }],
  ['a wrong method', 'PUT', `/channels/${CHANNEL}`, {}, { status: 405, code: 0 }],
  ['an unknown channel', 'GET', '/channels/1', undefined, { status: 404, code: 10003 }],
  ['a message to an unknown channel', 'POST', '/channels/1/messages', { content: 'c' }, { status: 404, code: 10003 }],
  ['typing in an unknown channel', 'POST', '/channels/1/typing', undefined, { status: 404, code: 10003 }],
  ['pins of an unknown channel', 'GET', '/channels/1/messages/pins', undefined, { status: 404, code: 10003 }],
  ['an unknown message', 'GET', `/channels/${CHANNEL}/messages/1`, undefined, { status: 404, code: 10008 }],
  ['deleting an unknown message', 'DELETE', `/channels/${CHANNEL}/messages/1`, undefined, { status: 404, code: 10008 }],
  [
    'pinning an unknown message',
    'PUT',
    `/channels/${CHANNEL}/messages/pins/1`,
    undefined,
    { status: 404, code: 10008 },
  ],
  ['an unknown guild', 'GET', '/guilds/1', undefined, { status: 404, code: 10004 }],
  ['a member of an unknown guild', 'GET', '/guilds/1/members/1', undefined, { status: 404, code: 10004 }],
  ['an unknown member', 'GET', `/guilds/${GUILD}/members/1`, undefined, { status: 404, code: 10007 }],
  ['an unknown user', 'GET', '/users/1', undefined, { status: 404, code: 10013 }],
  ['a talk with an unknown user', 'POST', '/users/@me/channels', { recipient_id: '1' }, { status: 404, code: 10013 }],
  [
    'commands of an unknown application',
    'GET',
    `/applications/1/guilds/${GUILD}/commands`,
    undefined,
    { status: 404, code: 10002 },
  ],
  [
    'commands of an unknown guild',
    'PUT',
    `/applications/${APPLICATION}/guilds/1/commands`,
    [],
    { status: 404, code: 10004 },
  ],
  [
    'a list of no messages',
    'GET',
    `/channels/${CHANNEL}/messages?limit=0`,
    undefined,
    { field: 'limit', is: 'NUMBER_TYPE_MIN' },
  ],
  [
    'a list of 101 messages',
    'GET',
    `/channels/${CHANNEL}/messages?limit=101`,
    undefined,
    { field: 'limit', is: 'NUMBER_TYPE_MAX' },
  ],
  [
    'a list of some messages',
    'GET',
    `/channels/${CHANNEL}/messages?limit=some`,
    undefined,
    { field: 'limit', is: 'NUMBER_TYPE_COERCE' },
  ],
];

describe('a request is refused for', () => {
  let bot: RawBot;
  beforeAll(async () => {
    bot = await startRawBot();
  });
  afterAll(() => bot.close());

  it.each(WRONG)('%s', async (_what, method, path, body, refusal) => {
    expectRefusal(await bot.send(method, path, body), refusal);
  });

  it.each([
    ['a wrong token', 'Bot wrong'],
    ['a token without its kind', 'local'],
    ['no token', ''],
  ])('%s', async (_what, authorization) => {
    for (const path of ['/users/@me', '/gateway/bot', `/channels/${CHANNEL}/messages`])
      expectRefusal(await bot.send('GET', path, undefined, { authorization }), { status: 401, code: 0 });
  });

  it('more than 250 pins', async () => {
    const path = `/channels/${CHANNEL}/messages`;
    for (let count = 0; count <= 250; count += 1) {
      const { id } = (await bot.send('POST', path, { content: 'c' })).json as { id: string };
      const answer = await bot.send('PUT', `${path}/pins/${id}`);
      if (count < 250) expect(answer.status).toBe(204);
      else expectRefusal(answer, { status: 400, code: 30003 });
    }
  });

  it('acting as a person from a page of another address', async () => {
    const url = new URL('/local/say', bot.local.pageUrl);
    const body = JSON.stringify({ as: 'rowan', text: 'hello' });
    const answer = await fetch(url, { method: 'POST', body, headers: { origin: 'https://example.com' } });
    expect(answer.status).toBe(403);
  });
});
