import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ManualClock } from '../../src/local/clock.ts';
import { expectRefusal } from './expectRefusal.ts';
import { type RawBot, startRawBot, type WireInteraction } from './rawBot.ts';

const SECOND_MS = 1000;
const MINUTE_MS = 60 * SECOND_MS;
const say = (content: string) => ({ type: 4, data: { content } });

describe('the time limits', () => {
  let bot: RawBot;
  let clock: ManualClock;
  let interaction: WireInteraction;
  let followUps: string;
  beforeEach(async () => {
    clock = new ManualClock(Date.UTC(2026, 10, 25, 12));
    bot = await startRawBot({ clock });
    await bot.send('PUT', `/applications/${bot.local.applicationId}/guilds/${bot.local.guildId}/commands`, [
      { name: 'plain', description: 'd' },
    ]);
  });
  afterEach(() => bot.close());
  it('take an answer after 2.9 s and lapse at 3 s', async () => {
    const inTime = bot.chat.as('linnet').command('plain');
    const first = await bot.nextInteraction();
    clock.advance(2.9 * SECOND_MS);
    expect((await bot.callback(first, say('in time'))).status).toBe(204);
    expect(await inTime).toMatchObject({ kind: 'message', text: 'in time' });

    const tooLate = bot.chat.as('linnet').command('plain');
    const second = await bot.nextInteraction();
    clock.advance(3 * SECOND_MS);
    expect(await tooLate).toMatchObject({ kind: 'none', failure: 'the bot did not answer within 3 seconds', text: '' });
    expectRefusal(await bot.callback(second, say('late')), { status: 404, code: 10062 });
    const path = `/webhooks/${bot.local.applicationId}/${second.token}`;
    expectRefusal(await bot.send('POST', path, { content: 'late' }), { status: 404, code: 10015 });
  });

  it('open the follow-ups with the answer and close them 15 minutes after the question', async () => {
    const asked = bot.chat.as('linnet').command('plain', {}, { settleMs: 0 });
    interaction = await bot.nextInteraction();
    followUps = `/webhooks/${bot.local.applicationId}/${interaction.token}`;
    expectRefusal(await bot.send('POST', followUps, { content: 'too early' }), { status: 404, code: 10015 });
    expectRefusal(await bot.send('GET', `${followUps}/messages/@original`), { status: 404, code: 10015 });
    await bot.callback(interaction, { type: 5 });
    await asked;
    clock.advance(15 * MINUTE_MS);
    expect((await bot.send('PATCH', `${followUps}/messages/%40original`, { content: 'just in time' })).status).toBe(
      200,
    );
    clock.advance(1);
    const refused = { status: 401, code: 50027 };
    expectRefusal(await bot.send('PATCH', `${followUps}/messages/@original`, { content: 'c' }), refused);
    expectRefusal(await bot.send('GET', `${followUps}/messages/@original`), refused);
    expectRefusal(await bot.send('DELETE', `${followUps}/messages/@original`), refused);
    expectRefusal(await bot.send('POST', followUps, { content: 'c' }), refused);
    expect((await bot.chat.channelMessages()).map((message) => message.text)).toEqual(['just in time']);
  });

  it('refuse follow-ups with a wrong token or for another application, and messages that are not the interaction’s own', async () => {
    const asked = bot.chat.as('linnet').command('plain');
    interaction = await bot.nextInteraction();
    followUps = `/webhooks/${bot.local.applicationId}/${interaction.token}`;
    await bot.callback(interaction, say('c'));
    await asked;
    const other = await bot.send('POST', `/channels/${bot.local.channelId}/messages`, { content: 'a post' });
    const { id } = other.json as { id: string };
    expectRefusal(await bot.send('POST', `/webhooks/${bot.local.applicationId}/other`, { content: 'c' }), {
      status: 401,
      code: 50027,
    });
    expectRefusal(await bot.send('POST', `/webhooks/1/${interaction.token}`, { content: 'c' }), {
      status: 404,
      code: 10015,
    });
    expectRefusal(await bot.send('PATCH', `${followUps}/messages/${id}`, { content: 'c' }), {
      status: 404,
      code: 10008,
    });
    expectRefusal(await bot.send('POST', followUps, {}), { status: 400, code: 50006 });
    expectRefusal(await bot.send('POST', followUps, { content: 'x'.repeat(2001) }), {
      field: 'content',
      is: 'BASE_TYPE_MAX_LENGTH',
    });
  });

  it('have no message behind @original after a form', async () => {
    const asked = bot.chat.as('linnet').command('plain');
    interaction = await bot.nextInteraction();
    const component = { type: 4, custom_id: 'i', style: 1 };
    await bot.callback(interaction, {
      type: 9,
      data: { custom_id: 'm', title: 't', components: [{ type: 18, label: 'l', component }] },
    });
    expect(await asked).toMatchObject({ kind: 'modal' });
    const original = `/webhooks/${bot.local.applicationId}/${interaction.token}/messages/@original`;
    expectRefusal(await bot.send('GET', original), { status: 404, code: 10008 });
  });

  it('compare nonces for three minutes, and only when asked to', async () => {
    const path = `/channels/${bot.local.channelId}/messages`;
    const post = async (more: object) =>
      ((await bot.send('POST', path, { nonce: 'd7-20261125', ...more })).json as { id: string }).id;
    const first = await post({ content: 'morning', enforce_nonce: true });
    expect(await post({ content: 'morning again', enforce_nonce: true })).toBe(first);
    expect(await post({ content: 'without asking' })).not.toBe(first);
    clock.advance(3 * MINUTE_MS + 1);
    expect(await post({ content: 'much later', enforce_nonce: true })).not.toBe(first);
    const texts = (await bot.chat.channelMessages()).map((message) => message.text);
    expect(texts).toEqual(['morning', 'without asking', 'much later']);
  });

  it('hold for an answer that is on its way when they pass', async () => {
    const release = await bot.chat.fault({
      kind: 'hold',
      method: 'POST',
      route: '/interactions/{interaction}/{token}/callback',
    });
    const asked = bot.chat.as('linnet').command('plain');
    interaction = await bot.nextInteraction();
    const answer = bot.callback(interaction, say('held up'));
    clock.advance(3 * SECOND_MS);
    expect(await asked).toMatchObject({ kind: 'none' });
    await release();
    expectRefusal(await answer, { status: 404, code: 10062 });
  });
});
