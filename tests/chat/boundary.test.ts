import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { FIXED_IDS } from '../../src/local/ids.ts';
import type { Chat, Person } from '../support/chat/driver.ts';
import { type LiveBot, startLiveBot } from './liveBot.ts';

let live: LiveBot;
let chat: Chat;
let owner: Person;
let partner: Person;
let stranger: Person;

beforeAll(async () => {
  live = await startLiveBot();
  chat = live.chat;
  owner = chat.as(FIXED_IDS.owner);
  partner = chat.as(FIXED_IDS.partner);
  stranger = chat.as(FIXED_IDS.stranger);
});
afterAll(() => live.close());
beforeEach(() => chat.forgetRequests());
afterEach(async () => {
  await chat.clearFaults();
  const refused = (await chat.refusals()).filter(({ code, isInjected }) => !isInjected && code !== 40060);
  expect(refused).toEqual([]);
});

const callback = '/interactions/{interaction}/{token}/callback';

const tokensSent = async (): Promise<string[]> =>
  (await chat.requests()).flatMap(({ path }) => /\/(?:interactions|webhooks)\/\d+\/([^/?]+)/.exec(path)?.[1] ?? []);

const setPartner = () => {
  const { store } = live.bot().desk;
  const by = { userId: FIXED_IDS.owner, name: 'owner', key: 'set-partner' };
  if (store.entries.ofKey(by.key) !== undefined) return;
  const entry = store.entries.add(by, 'partner', 'alder', live.bot().desk.now());
  const alder = {
    userId: FIXED_IDS.partner,
    name: 'alder',
    sharePercent: null,
    never: [],
    awayFrom: null,
    awayTo: null,
    owner: false,
  };
  store.settings.setPartner(entry, alder, false);
};

describe('who and where', () => {
  it('answers only managers until a first partner is set, then partners too', async () => {
    const early = await partner.command('note', { text: 'early' });
    expect(early).toMatchObject({ ephemeral: true, text: expect.stringContaining('No partner is set yet') });
    setPartner();
    const late = await partner.command('note', { text: 'late' });
    expect(late.ephemeral).toBe(false);
    expect(late.text).toContain('"by":"alder","owner":false');
  });

  it('refuses strangers and other channels in private, and writes nothing', async () => {
    setPartner();
    const before = live.entries();
    expect(await stranger.command('note', { text: 'x' })).toMatchObject({
      ephemeral: true,
      text: expect.stringContaining('answers the partners only'),
    });
    const elsewhere = await owner.in(FIXED_IDS.otherChannel).command('note', { text: 'x' });
    expect(elsewhere).toMatchObject({
      ephemeral: true,
      text: expect.stringContaining('Not here: this bot works in one channel'),
    });
    expect(live.entries()).toEqual(before);
  });

  it("keeps what is the owner's from a partner", async () => {
    setPartner();
    expect((await owner.command('try owner')).text).toContain('Settings');
    expect(await partner.command('try owner')).toMatchObject({
      ephemeral: true,
      text: expect.stringContaining('for the owner'),
    });
  });

  it('answers in the channel chosen in the settings, too', async () => {
    const { store } = live.bot().desk;
    const entry = store.entries.add(
      { userId: '1', name: 'x', key: 'channel' },
      'business',
      'set channel',
      live.bot().desk.now(),
    );
    store.settings.set(entry, 'channelId', FIXED_IDS.otherChannel);
    expect((await owner.in(FIXED_IDS.otherChannel).command('note', { text: 'there' })).text).toContain('Noted');
    expect((await owner.command('note', { text: 'here' })).text).toContain('Noted');
    store.entries.void(entry, { userId: '1', name: 'x' }, live.bot().desk.now());
  });
});

describe('options', () => {
  it('reach the handler as plain values', async () => {
    const options = { text: 'A1', litres: 7.5, pieces: 3, sure: false, role: 'selling', partner: FIXED_IDS.partner };
    const reply = await owner.command('note', options);
    const said = JSON.parse(reply.text.split('\n')[1] ?? '');
    const { name } = (await chat.people()).users.find(({ id }) => id === FIXED_IDS.partner) ?? { name: '' };
    expect(said).toMatchObject({ ...options, partner: { userId: FIXED_IDS.partner, name, bot: false } });
  });

  it("that do not parse are said in private, with the option's name", async () => {
    const reply = await owner.command('note', { text: 'x'.repeat(21) });
    expect(reply).toMatchObject({ ephemeral: true, text: expect.stringContaining('text: at most 20 characters') });
  });

  it("complete within the service's limits, and not at all for a stranger", async () => {
    const choices = await owner.complete('note', 'text', 'a', { litres: 2 });
    expect(choices).toHaveLength(25);
    expect(choices[0]?.name).toMatch(/^tub a .*"litres":2/);
    expect(choices[1]?.name).toHaveLength(100);
    expect(choices.every(({ value }) => value !== '')).toBe(true);
    expect(await stranger.complete('note', 'text', 'a')).toEqual([]);
  });
});

describe('answers', () => {
  it('in private after a public deferral stay private', async () => {
    const reply = await owner.command('try slow', { private: true });
    const seen = await chat.later(reply, { followUps: 1 });
    expect(seen.followUps[0]).toMatchObject({ ephemeral: true, text: expect.stringContaining('**There it is**') });
    expect((await chat.channelMessages()).filter(({ text }) => text.includes('There it is'))).toEqual([]);
    expect((await chat.channelMessages()).filter(({ message }) => message.local.isLoading)).toEqual([]);
    expect((await owner.command('try slow', { private: false })).text).toContain('**There it is**');
  });

  it('carry files, for the asker alone where marked', async () => {
    const reply = await owner.command('try alone');
    expect(reply.ephemeral).toBe(true);
    expect(await (await fetch(reply.files[0] ?? '')).text()).toBe('a,b\n1,2\n');
  });

  it.each([false, true])('with a chart are acknowledged before it is drawn (private: %s)', async (isPrivate) => {
    const shown = await owner.command('try chart', { private: isPrivate });
    expect(shown).toMatchObject({ kind: 'deferred', ephemeral: isPrivate });
    const [picture] = shown.message?.attachments ?? [];
    expect(picture).toMatchObject({ filename: 'chart.png' });
    expect(picture?.description).toBe('Chart of A3 nitrate, mg/L. nitrate from 10 on 6 Apr to 20 on 13 Apr.');
  });

  it('with a chart settle the pressed message, with one picture however often', async () => {
    const shown = await owner.command('try chart');
    for (const _ of [1, 2]) {
      const pressed = await owner.press(shown, 'Rota');
      expect(pressed.kind).toBe('deferredUpdate');
      const seen = await chat.later(pressed, { edits: 1 });
      expect(seen.files).toHaveLength(1);
    }
  });

  it('with a chart come though their acknowledgement was lost', async () => {
    await chat.fault({ kind: 'loseAnswer', how: 'close', method: 'POST', route: callback, times: 1 });
    const shown = await owner.command('try chart');
    expect(shown.files).toHaveLength(1);
  });

  it('settle the pressed message and follow up', async () => {
    const noted = await owner.command('note', { text: 'press me' });
    const pressed = await owner.press(noted, 'Stock');
    const seen = await chat.later(pressed, { followUps: 1 });
    expect(seen.text).toBe('**Settled**');
    expect(seen.controls).toEqual([]);
    expect(seen.followUps[0]).toMatchObject({ ephemeral: false, text: '**Stock as asked**' });
  });

  it('open forms, take them, and give back what was typed when it could not be taken', async () => {
    const form = await owner.command('try form');
    expect(form.form).toMatchObject({ title: 'Readings', fields: [{ label: 'Lines', value: 'A1' }] });
    const refused = await owner.submit(form, { lines: 'A1 typed long' });
    expect(refused).toMatchObject({ ephemeral: true, text: expect.stringContaining('Not logged') });
    const reopened = await owner.press(refused, 'Correct it');
    expect(reopened.form?.fields[0]?.value).toBe('A1 typed long');
    expect((await owner.submit(reopened, { lines: 'A1 no3 20' })).text).toContain('Logged A1 no3 20');
  });

  it('to a button of another version are polite, private and lead on', async () => {
    const posted = await live.bot().publisher.publish({ title: 'Old' }, { key: 'old 2027-04-13' });
    if (posted.outcome !== 'sent') throw new Error(posted.cause);
    const [message] = (await chat.channelMessages()).filter(({ message: { id } }) => id === posted.messageId);
    if (message === undefined) throw new Error('the post is not there');
    await fetch(`${live.local.apiUrl}/v10/channels/${live.local.channelId}/messages/${posted.messageId}`, {
      method: 'PATCH',
      headers: { authorization: `Bot ${live.local.token}`, 'content-type': 'application/json' },
      body: JSON.stringify({
        components: [{ type: 1, components: [{ type: 2, style: 2, label: 'Gone', custom_id: 'gone:%E0%A4%A' }] }],
      }),
    });
    const reply = await owner.press(message, 'gone:%E0%A4%A');
    expect(reply).toMatchObject({ ephemeral: true, text: expect.stringContaining('out of date') });
    expect(reply.controls.map(({ label }) => label)).toEqual(['Home']);
  });
});

describe('a question', () => {
  it('is written once, whoever taps how often, and says what was taken', async () => {
    const before = live.entries().length;
    const asked = await owner.command('try question', { text: 'twice' });
    expect(asked.controls.map(({ label }) => label)).toEqual(['Log it all the same', 'Leave it']);
    await live.restart();
    const [first, second] = await Promise.all([
      owner.press(asked, 'Log it all the same'),
      owner.press(asked, 'Log it all the same'),
    ]);
    const texts = [first, second]
      .flatMap(({ text, followUps }) => [text, ...followUps.map((shown) => shown.text)])
      .join('\n');
    expect(texts).toContain('Taken: Log it all the same');
    expect(texts).toContain('That was answered already');
    expect(live.entries().length).toBe(before + 1);
  });

  it('about a slow command is acknowledged first, then settled and answered in the open', async () => {
    const asked = await owner.command('try pondering');
    expect(asked).toMatchObject({ ephemeral: true, text: expect.stringContaining('**Not yet**') });
    const pressed = await owner.press(asked, 'Go on');
    expect(pressed.kind).toBe('deferredUpdate');
    const seen = await chat.later(pressed, { edits: 1, followUps: 1 });
    expect(seen.text).toContain('Taken: Go on');
    expect(seen.controls).toEqual([]);
    expect(seen.followUps[0]).toMatchObject({ ephemeral: false, text: expect.stringContaining('Pondered as entry') });
  });

  it('that is left writes nothing', async () => {
    const before = live.entries().length;
    const asked = await owner.command('try question', { text: 'left' });
    const left = await owner.press(asked, 'Leave it');
    expect(left.text).toContain('Left: nothing was logged');
    expect(left.controls).toEqual([]);
    expect(live.entries().length).toBe(before);
  });
});

describe('what goes wrong', () => {
  it('is said in private with a reference that the log has, and truthfully', async () => {
    const early = await owner.command('try breaking', { late: false });
    expect(early.ephemeral).toBe(true);
    const reference = /\(ref ([0-9A-F]{4})\)\. Nothing was saved\./.exec(early.text)?.[1];
    expect(live.logged()).toContain(`"reference":"${reference}"`);
    expect(early.text).not.toContain('secret');
    const late = await owner.command('try breaking', { late: true });
    expect(late.text).toContain('It was saved before that: A1 changed 5 L');
  });

  it('on the way leaves one entry and no second answer', async () => {
    await chat.fault({ kind: 'loseAnswer', how: 'close', method: 'POST', route: callback, times: 1 });
    const reply = await owner.command('note', { text: 'lost answer' });
    expect(reply.text).toContain('Noted');
    expect(live.entries().filter((summary) => summary === 'lost answer')).toHaveLength(1);
    await live.restart();
    expect(live.logged()).toContain('"code":40060');
    const tokens = await tokensSent();
    expect(tokens.length).toBeGreaterThan(1);
    for (const token of tokens) expect(live.logged()).not.toContain(token);
  });

  it('too late for an answer is logged and not answered', async () => {
    const body = { code: 10062, message: 'Unknown interaction' };
    await chat.fault({ kind: 'status', status: 404, body, method: 'POST', route: callback, times: 1 });
    const reply = await owner.command('note', { text: 'too late' }, { settleMs: 0 });
    expect(reply.kind).toBe('none');
    expect(live.entries().filter((summary) => summary === 'too late')).toHaveLength(1);
    expect((await chat.requests()).filter(({ method }) => method === 'POST')).toHaveLength(1);
    await live.restart();
    expect(live.logged()).toContain('"code":10062');
  });

  it('with the connection leaves nothing undone and nothing done twice', async () => {
    const before = live.entries().length;
    await chat.gateway('drop');
    expect((await owner.command('note', { text: 'after the drop' })).text).toContain('Noted');
    expect(live.entries().length).toBe(before + 1);
    expect(live.endings).toEqual([]);
  });
});
