import { expect, it } from 'vitest';
import { permit } from '../../src/chat/permission.ts';

const place = { guildId: 'guild', channelIds: ['chosen', 'configured'] };
const partners = [
  { userId: 'wren', owner: true },
  { userId: 'alder', owner: false },
];
const asked = { guildId: 'guild', channelId: 'configured', userId: 'alder', manages: false };

it.each([
  ['a partner', asked, { ok: true, owner: false }],
  ['a partner marked as owner', { ...asked, userId: 'wren' }, { ok: true, owner: true }],
  ['a partner who manages the server', { ...asked, manages: true }, { ok: true, owner: true }],
  ['a manager who is no partner', { ...asked, userId: 'other', manages: true }, { ok: true, owner: true }],
  ['the chosen channel', { ...asked, channelId: 'chosen' }, { ok: true, owner: false }],
  ['a stranger', { ...asked, userId: 'other' }, { ok: false, card: { title: 'This bot answers the partners only' } }],
  [
    'another server',
    { ...asked, guildId: 'elsewhere' },
    { ok: false, card: { title: 'This bot works in another server' } },
  ],
  [
    'a private message',
    { ...asked, guildId: null },
    { ok: false, card: { title: 'This bot works in another server' } },
  ],
  ['another channel', { ...asked, channelId: 'pond' }, { ok: false, card: { next: "Ask in the bot's own channel" } }],
  ['no channel', { ...asked, channelId: null }, { ok: false, card: { next: "Ask in the bot's own channel" } }],
])('%s', (_, from, outcome) => {
  expect(permit(from, place, partners)).toMatchObject(outcome);
});

it('without partners only a manager may', () => {
  expect(permit(asked, place, [])).toMatchObject({ ok: false, card: { title: 'No partner is set yet' } });
  expect(permit({ ...asked, manages: true }, place, [])).toEqual({ ok: true, owner: true });
});
