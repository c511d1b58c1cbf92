import { MessageFlags } from 'discord.js';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { nonceOf } from '../../src/chat/publish.ts';
import { FIXED_IDS } from '../../src/local/ids.ts';
import { type LiveBot, startLiveBot } from './liveBot.ts';

let live: LiveBot;
beforeAll(async () => {
  live = await startLiveBot();
});
afterAll(() => live.close());
afterEach(() => live.chat.clearFaults());

/** Without a control of its own, so that it gets the one by which a post is known. */
const card = { title: 'Morning, Tue 13 Apr: 2 changes' };
const posts = async () => (await live.chat.channelMessages()).filter(({ text }) => text.includes('Morning'));
const idOf = (published: { outcome: string; messageId?: string }): string => {
  if (published.messageId === undefined) throw new Error(`outcome ${published.outcome}`);
  return published.messageId;
};

it('a post is found again by its key, and known after its button was pressed', async () => {
  const { publisher } = live.bot();
  const key = 'morning 2027-04-13';
  expect(await publisher.findPost(key)).toEqual({ outcome: 'absent' });
  const messageId = idOf(await publisher.publish(card, { key, mention: [FIXED_IDS.partner] }));
  const [post] = await posts();
  expect(post?.message.mentions.map(({ id }) => id)).toEqual([FIXED_IDS.partner]);
  for (let count = 0; count < 120; count += 1) await live.chat.as(FIXED_IDS.owner).say(`talk ${count}`);
  expect(await publisher.findPost(key)).toEqual({ outcome: 'found', messageId });
  expect(await publisher.findPost('morning 2027-04-14')).toEqual({ outcome: 'absent' });
  if (post === undefined) throw new Error('the post is gone');
  await live.chat.as(FIXED_IDS.owner).press(post, 'Home');
  expect(await publisher.findPost(key)).toEqual({ outcome: 'found', messageId });
});

it('a post at night calls nobody and makes no sound', async () => {
  const { publisher } = live.bot();
  const key = 'evening 2027-04-13';
  const title = 'Evening at night';
  idOf(await publisher.publish({ title }, { key, mention: [FIXED_IDS.partner], quiet: true }));
  const post = (await live.chat.channelMessages()).find(({ text }) => text.includes(title));
  expect(post?.message.flags).toBe(MessageFlags.SuppressNotifications);
});

it('a post says something else once it is edited, keeps its key, and one that is gone is told as absent', async () => {
  const { publisher } = live.bot();
  const key = 'morning 2027-04-30';
  const messageId = idOf(await publisher.publish({ title: 'Before' }, { key }));
  expect(await publisher.edit(messageId, { title: 'After' }, { key })).toEqual({ outcome: 'edited' });
  const texts = (await live.chat.channelMessages()).map(({ text }) => text);
  expect(texts).toContain('**After**');
  expect(texts).not.toContain('**Before**');
  expect(await publisher.findPost(key)).toEqual({ outcome: 'found', messageId });
  expect(await publisher.edit('1100000000000008888', { title: 'After' }, { key })).toEqual({ outcome: 'absent' });
  await live.chat.fault({
    kind: 'status',
    status: 403,
    body: { code: 30046, message: 'Too many edits' },
    method: 'PATCH',
    route: '/channels/{channel}/messages/{message}',
    times: 1,
  });
  expect(await publisher.edit(messageId, { title: 'Later' }, { key })).toEqual({
    outcome: 'unknown',
    cause: 'Too many edits',
  });
});

it('a send whose answer is lost is unknown, and sent again comes back as the same message', async () => {
  const { publisher } = live.bot();
  const key = 'morning 2027-04-15';
  const before = (await posts()).length;
  await live.chat.fault({
    kind: 'loseAnswer',
    how: 'close',
    method: 'POST',
    route: '/channels/{channel}/messages',
    times: 1,
  });
  expect(await publisher.publish(card, { key })).toMatchObject({ outcome: 'unknown' });
  const found = await publisher.findPost(key);
  expect(found.outcome).toBe('found');
  expect(idOf(await publisher.publish(card, { key }))).toBe(idOf(found));
  expect((await posts()).length).toBe(before + 1);
});

it('a channel that cannot be reached is told as not known', async () => {
  const { publisher } = live.bot();
  await live.chat.fault({
    kind: 'status',
    status: 403,
    body: { code: 50013, message: 'Missing Permissions' },
    method: 'POST',
    route: '/channels/{channel}/messages',
    times: 1,
  });
  expect(await publisher.publish(card, { key: 'x' })).toEqual({ outcome: 'unknown', cause: 'Missing Permissions' });
});

it('a nonce is short and the same for the same key', () => {
  expect(nonceOf('morning 2027-04-13')).toBe(nonceOf('morning 2027-04-13'));
  expect(nonceOf('morning 2027-04-13')).not.toBe(nonceOf('morning 2027-04-14'));
  expect(nonceOf('x'.repeat(500)).length).toBeLessThanOrEqual(25);
});

it('a post goes to the channel of the set-up when the chosen one is gone', async () => {
  const { desk, publisher } = live.bot();
  const { store } = desk;
  const by = { userId: FIXED_IDS.owner, name: 'rowan', key: 'chosen-channel' };
  const entry = store.entries.add(by, 'business', 'chose a channel', desk.now());
  store.settings.set(entry, 'channelId', '1100000000000009999');
  const key = 'morning 2027-04-20';
  idOf(await publisher.publish({ ...card, title: 'Morning at home' }, { key }));
  expect((await posts()).some(({ text }) => text.includes('Morning at home'))).toBe(true);
  store.entries.void(entry, by, desk.now());
});
