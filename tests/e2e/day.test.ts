import { afterEach, beforeEach, expect, it } from 'vitest';
import { startTryOut, type TryOut } from '../support/tryOut.ts';

let tryOut: TryOut;
beforeEach(async () => {
  tryOut = await startTryOut();
  await tryOut.setUp('A1-A4');
});
afterEach(async () => {
  const refused = (await tryOut.chat.refusals()).filter(({ isInjected }) => !isInjected);
  await tryOut.close();
  expect(refused).toEqual([]);
});

const posts = async (kind: string) =>
  (await tryOut.chat.channelMessages()).filter(({ text }) => text.startsWith(`**${kind},`));

it("takes a slip mended, a change once, and the other partner's word for it", async () => {
  const [rowan, linnet] = [tryOut.chat.as('rowan'), tryOut.chat.as('linnet')];
  const slip = await linnet.command('reading log', { tub: 'a1', temp: 72 });
  expect(slip).toMatchObject({ ephemeral: true, text: expect.stringContaining('72 °F would be 22.2 °C') });
  const taken = await tryOut.chat.later(await linnet.press(slip, 'Log 22.2 °C'), { followUps: 1 });
  expect(taken.followUps[0]).toMatchObject({ ephemeral: false, text: expect.stringContaining('22.2 °C') });

  expect((await rowan.command('change log', { tub: 'A1', percent: 25 })).text).toContain('A1: 6 L changed');
  const asked = await linnet.command('change log', { tub: 'A1', percent: 25 });
  expect(asked).toMatchObject({ ephemeral: true, text: expect.stringContaining('the two swap 44 %') });
  const topUp = await tryOut.chat.later(await linnet.press(asked, 'It was a top-up'), { followUps: 1 });
  expect(topUp.followUps[0]?.text).toContain('A1: 6 L topped up');
});

it('sells in words, warns of a closed day, moves the sale, packs, sends and settles what arrived', async () => {
  const [rowan, linnet] = [tryOut.chat.as('rowan'), tryOut.chat.as('linnet')];
  await rowan.command('count log', { tub: 'A1', saleable: 60, method: 'full' });
  await rowan.command('season', { 'close-from': '14 Apr', 'close-to': '20 Apr', name: 'fair' });
  const sale = await linnet.command('sale add', {
    items: '2 tens orange',
    buyer: 'kestrel',
    'dispatch-on': '2027-04-14',
  });
  expect(sale.text).toMatch(/^\*\*Sale 1: no, not on Wed 14 Apr\*\*/);
  const moved = await rowan.press(sale, 'Move to Wed 21 Apr');
  expect(moved.text).toMatch(/^\*\*Sale 1: may go Wed 21 Apr\*\*/);
  expect((await linnet.command('sale add', { items: '50 orange' })).text).toContain('free to promise');
  await linnet.command('sale paid', { sale: '1' });
  await rowan.command('clock', { to: '2027-04-21 09:00' });
  expect((await linnet.command('dispatch day')).text).toContain('1 parcel to pack');
  const sent = await linnet.command('dispatch sent', { sale: '1' });
  const left = sent.ephemeral
    ? await tryOut.chat.later(await linnet.press(sent, 'It is on its way already'), { followUps: 1 })
    : sent;
  expect((left.followUps[0] ?? left).text).toContain('sent');
  expect((await rowan.command('dispatch sent', { sale: '1' })).text).toContain('already');
  await rowan.command('clock', { to: '2027-04-22 12:00' });
  const arrived = await rowan.command('dispatch arrived', { sale: '1', dead: 6 });
  expect(arrived.text).toMatch(/Parcel 1|Sale 1/);
  expect(arrived.controls.map(({ label }) => label).join(' ')).toMatch(/Refund/);
});

it('posts every morning once, and a tick under the post logs the act and says by whom', async () => {
  const [rowan, linnet] = [tryOut.chat.as('rowan'), tryOut.chat.as('linnet')];
  await rowan.command('clock', { to: '2027-04-14 08:00' });
  const [morning, ...more] = await posts('Morning');
  expect(more).toEqual([]);
  if (morning === undefined) throw new Error('no morning post');
  await linnet.press(morning, 'A done');
  const history = await linnet.command('rota today');
  expect(history.text).toMatch(/Done by linnet/);
  const [updated] = await posts('Morning');
  expect(updated?.text).toContain('linnet');
  await rowan.command('topup', { tub: 'A1', litres: 1 });
  await tryOut.chat.untilMessage(({ text }) => /^\*\*Morning, Wed 14 Apr.*Done by rowan: top-up/s.test(text));
  await rowan.command('clock', { forward: '2 days' });
  expect(await posts('Morning')).toHaveLength(3);
});
