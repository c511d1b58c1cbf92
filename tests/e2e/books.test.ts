import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { startTryOut, type TryOut } from '../support/tryOut.ts';

let tryOut: TryOut;
beforeEach(async () => {
  tryOut = await startTryOut();
  await tryOut.setUp('A1-A2');
});
afterEach(async () => {
  const refused = (await tryOut.chat.refusals()).filter(({ isInjected }) => !isInjected);
  await tryOut.close();
  expect(refused).toEqual([]);
});

const textAt = async (address: string): Promise<string> => (await fetch(address)).text();
const fileNames = (addresses: readonly string[]): string[] =>
  addresses.map((address) => decodeURIComponent(new URL(address).pathname.split('/').at(-1) ?? ''));

it('tells of the money, and hands the books to the owner alone, in as many messages as the files need', async () => {
  const [rowan, linnet] = [tryOut.chat.as('rowan'), tryOut.chat.as('linnet')];
  await rowan.command('count log', { tub: 'A1', saleable: 60, method: 'full' });
  await linnet.command('sale add', { items: '10 orange', buyer: '@SUM(1+1)', area: 'Zwolle', postage: 7 });
  await linnet.command('sale paid', { sale: '1' });
  const spent = await linnet.command('cost', { amount: 12.5, what: '-flakes; =2+2', kind: 'feed' });
  expect(spent).toMatchObject({ ephemeral: false, text: expect.stringContaining('Spent €12.50') });
  expect((await rowan.command('money')).text).toMatch(/^\*\*April so far: €19\.50 net\*\*/);

  const shut = await linnet.command('export', { what: 'sales' });
  expect(shut).toMatchObject({ ephemeral: true, files: [] });
  const sales = await rowan.command('export', { what: 'sales' });
  expect(sales).toMatchObject({ ephemeral: true, text: expect.stringContaining('Export: sales, 1 row') });
  expect(fileNames(sales.files)).toEqual(['sales-2027-04-13.csv']);
  const [heading, row] = (await textAt(sales.files[0] ?? '')).split('\r\n');
  expect(heading).toMatch(/^sale,booked,buyer,area,/);
  expect(row).toMatch(/^1,2027-04-13 09:0\d,'@SUM\(1\+1\),Zwolle,.*,25\.00,7\.00,32\.00,/);
  const costs = await rowan.command('export', { what: 'costs' });
  expect(await textAt(costs.files[0] ?? '')).toMatch(/,12\.50,"'-flakes;' =2\+2",feed,,linnet\r\n$/);

  const all = await rowan.command('export');
  const whole = await tryOut.chat.later(all, { followUps: 1 });
  expect([whole, ...whole.followUps].every(({ ephemeral }) => ephemeral)).toBe(true);
  const names = fileNames([whole.files, ...whole.followUps.map(({ files }) => files)].flat());
  expect(names).toEqual(
    expect.arrayContaining(['sales-2027-04-13.csv', 'tax-years-2027-04-13.csv', 'entries-2027-04-13.csv']),
  );
  expect(names.length).toBeGreaterThan(10);
  expect((await linnet.messages()).flatMap(({ files }) => files)).toEqual([]);
});

it('forgets a buyer, whose photo and name are gone from the data folder, and keeps the books', async () => {
  const [rowan, linnet] = [tryOut.chat.as('rowan'), tryOut.chat.as('linnet')];
  await rowan.command('count log', { tub: 'A1', saleable: 60, method: 'full' });
  await rowan.command('sale add', {
    items: '10 orange',
    buyer: 'Kestrel',
    area: 'Leeuwarden',
    'dispatch-on': '2027-04-13',
  });
  await rowan.command('sale paid', { sale: '1' });
  const sent = await rowan.command('dispatch sent', { sale: '1', tracking: 'RR123' });
  if (sent.ephemeral) await tryOut.chat.later(await rowan.press(sent, 'It is on its way already'), { followUps: 1 });
  await rowan.command('clock', { to: '2027-04-14 12:00' });
  const photo = { filename: 'bag.jpg', contentType: 'image/jpeg', bytes: new Uint8Array([0xff, 0xd8, 0xff, 0xe0]) };
  await rowan.command('dispatch arrived', { sale: '1', dead: 0, photo });
  const photos = join(tryOut.folder, 'photos');
  expect(readdirSync(photos)).toHaveLength(1);

  const asked = await linnet.command('sale forget', { buyer: 'kestrel' });
  expect(asked).toMatchObject({ ephemeral: true, text: expect.stringContaining('Forget Kestrel for good?') });
  const done = await tryOut.chat.later(await linnet.press(asked, 'Forget Kestrel'), { followUps: 1 });
  expect(done.followUps[0]).toMatchObject({ ephemeral: true, text: expect.stringContaining('the books are kept') });
  expect(readdirSync(photos)).toEqual([]);
  const files = ['berried.db', 'berried.db-wal', 'drafts.db', 'drafts.db-wal'].map((name) => join(tryOut.folder, name));
  const bytes = files.filter((file) => existsSync(file)).map((file) => readFileSync(file, 'latin1'));
  expect(bytes.join('\n')).not.toMatch(/kestrel|leeuwarden|RR123/i);
  expect((await rowan.command('money')).text).toContain('In €25.00');
});
