import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Locator } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { startTryOut, type TryOut } from '../support/tryOut.ts';
import { type ChannelPage, openChannel } from './channelPage.ts';
import { openBrowser } from './openBrowser.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

let tryOut: TryOut;
let channel: ChannelPage;
beforeEach(async () => {
  tryOut = await startTryOut();
});
afterEach(async () => {
  try {
    await channel.look();
    expect(channel.complaints, 'complaints of the browser').toEqual([]);
    const refusals = (await tryOut.chat.refusals()).filter(({ isInjected }) => !isInjected);
    expect(refusals, 'what the stand-in refused the bot').toEqual([]);
  } finally {
    await channel.close();
    await tryOut.close();
  }
});

const open = async (tubs?: string): Promise<void> => {
  if (tubs !== undefined) await tryOut.setUp(tubs);
  channel = await openChannel(browser, tryOut.pageUrl);
};

const firstLine = (message: Locator): Promise<string | null> =>
  message.locator('b', { hasText: ':' }).first().textContent();
/** What the browser will not send yet. */
const unfilled = (): Locator => channel.page.locator(':focus:invalid');
const onlyForYou = (message: Locator): Locator => message.getByText('only you see this');

describe('the empty channel', () => {
  it('is greeted by the bot with the home card, open to both', async () => {
    await open();
    const greeting = channel.page.getByRole('listitem').first();
    for (const person of ['rowan', 'linnet']) {
      await channel.become(person);
      for (const name of ['Log a reading', 'Next change', 'Stock', 'New sale', 'Pack', 'Undo'])
        await greeting.getByRole('button', { name }).waitFor();
      await channel.look();
    }
    await greeting.getByText('for you').waitFor({ state: 'hidden' });
  });

  it('says how to begin where the bot has not been, and the button there asks it', async () => {
    await open();
    const { page } = channel;
    const nothing = page.getByRole('heading', { name: 'Nothing here yet' });
    await page.getByLabel('Channel', { exact: true }).selectOption('elsewhere');
    await nothing.waitFor();
    await channel.look();
    const answer = await channel.answerTo(() => page.getByRole('button', { name: '/help' }).click());
    await onlyForYou(answer).waitFor();
    await answer.getByText("Ask in the bot's own channel").waitFor();
    await nothing.waitFor({ state: 'hidden' });
    await channel.become('linnet');
    await nothing.waitFor();
  });

  it('lets a couple set up their business from nothing', async () => {
    await open();
    for (const partner of ['rowan', 'linnet']) {
      await channel.fill('setup partner', { partner });
      expect(await firstLine(await channel.run())).toBe(`${partner}: partner added`);
    }
    await channel.fill('setup line', { line: 'Orange', price: '2,50' });
    expect(await (await channel.run()).textContent()).toContain('€2.50 each');
    await channel.fill('tub add', { name: 'A1-A6', line: 'Orange', litres: '30', role: 'breeding' });
    const added = await channel.run();
    expect(await firstLine(added)).toBe('6 tubs added: A1 to A6');
    await channel.become('linnet');
    await channel.page.getByRole('listitem').getByText('6 tubs added').waitFor();
    await channel.page.getByText('partner added').first().waitFor({ state: 'hidden' });
  });
});

describe('a set-up business', () => {
  it('finds a command and a tub by typing, logs a reading through the fields, and logs the change with the button under it', async () => {
    await open('A1-A6');
    const { page } = channel;
    const line = page.getByRole('combobox', { name: 'Command or message' });
    await line.pressSequentially('/read');
    const offered = page.getByRole('listbox', { name: 'Commands' }).getByRole('option');
    await offered.filter({ hasText: '/reading sheet' }).waitFor();
    await channel.look();
    await offered.filter({ hasText: '/reading log' }).click();
    await channel.field('tub').pressSequentially('a3');
    await channel.look();
    await page.getByRole('option', { name: 'A3 · Orange' }).click();
    await channel.field('nitrate').fill('40');
    await channel.field('temp').fill('21,5');
    const verdict = await channel.run();
    expect(await firstLine(verdict)).toMatch(/^A3: watch, change \d+(\.5)? L today$/);
    await verdict.getByText('you asked /reading log').waitFor();
    expect(await line.inputValue()).toBe('');
    const change = verdict.getByRole('button', { name: /^Changed/ });
    const words = await change.textContent();
    const logged = await channel.answerTo(() => change.click());
    expect(await logged.textContent()).toContain(words?.replace('Changed ', ''));
    await channel.become('linnet');
    await page.getByText('rowan asked /reading log').waitFor();
  });

  it('opens a form from a button, keeps to it what is needed, and logs what was filled in', async () => {
    await open('A1-A6');
    const { page } = channel;
    await page.getByRole('button', { name: 'Count A1' }).click();
    const form = page.getByRole('dialog', { name: 'Count of A1' });
    await form.waitFor();
    await channel.look();
    await form.getByRole('button', { name: 'Send' }).click();
    await form.getByLabel('Saleable (needed)').and(unfilled()).waitFor();
    await form.getByLabel('Saleable (needed)').fill('42');
    await form.getByLabel('Juveniles').fill('60');
    const counted = await channel.answerTo(() => form.getByRole('button', { name: 'Send' }).click());
    expect(await firstLine(counted)).toBe('A1: 42 saleable Orange');
    await form.waitFor({ state: 'hidden' });
  });

  it('goes by a select to the form of the chosen tub, and by another to a help topic', async () => {
    await open('A1-A6');
    const { page } = channel;
    await channel.fill('help');
    const home = await channel.run();
    const pick = await channel.answerTo(() => home.getByRole('button', { name: 'Log a reading' }).click());
    await pick.getByRole('button', { name: 'Send: Tub' }).click();
    await pick.getByLabel('Tub', { exact: true }).and(unfilled()).waitFor();
    await pick.getByLabel('Tub', { exact: true }).selectOption('A2 · Orange');
    await pick.getByRole('button', { name: 'Send: Tub' }).click();
    await page.getByRole('dialog', { name: 'Reading of A2' }).waitFor();
    await channel.look();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    await channel.fill('help', { topic: 'water' });
    const water = await channel.run();
    await water.getByLabel('Help on', { exact: true }).selectOption('Sales');
    const sales = await channel.answerTo(() => water.getByRole('button', { name: 'Send: Help on' }).click());
    expect(await firstLine(sales)).toBe('Help: Sales');
  });

  it('shows a refusal to the asker only, and mends the slip with its button', async () => {
    await open('A1-A6');
    const { page } = channel;
    await channel.fill('reading log', { tub: 'A3', temp: '72' });
    const refusal = await channel.run();
    expect(await firstLine(refusal)).toMatch(/^Not logged: 72 °C/);
    await onlyForYou(refusal).waitFor();
    await channel.become('linnet');
    await page.getByText('Not logged').first().waitFor({ state: 'hidden' });
    await page.getByText('6 tubs added').waitFor();
    await channel.become('rowan');
    const mend = page.getByRole('button', { name: 'Log 22.2 °C' });
    const logged = await channel.answerTo(() => mend.click());
    expect(await firstLine(logged)).toMatch(/^A3: fine/);
    await mend.waitFor({ state: 'hidden' });
    await channel.become('linnet');
    await page.getByText('A3: fine').waitFor();
  });

  it('takes a photo with a command, and the bot keeps it', async () => {
    await open('A1-A6');
    const rowan = tryOut.chat.as('rowan');
    await rowan.command('count log', { tub: 'A1', saleable: 60, method: 'full' });
    await rowan.command('sale add', { items: '2 orange', buyer: 'kestrel' });
    await rowan.command('sale paid', { sale: '1' });
    await rowan.command('dispatch sent', { sale: '1' });
    await channel.fill('dispatch arrived', { sale: '1', dead: '0' });
    await channel.field('photo').setInputFiles({ name: 'bag.png', mimeType: 'image/png', buffer: onePixel });
    const arrived = await channel.run();
    expect(await arrived.textContent()).toContain('2 of 2');
    expect(readdirSync(join(tryOut.folder, 'photos'))).toHaveLength(1);
  });

  it('shows forty tubs within the width, from the first line on', async () => {
    await open('A1-A40');
    await channel.fill('tub list');
    const list = await channel.run();
    expect((await list.locator('pre').textContent())?.split('\n').length).toBeGreaterThan(40);
    await channel.fill('reading sheet');
    await channel.page.getByRole('button', { name: 'Run' }).click();
    const sheet = channel.page.getByRole('dialog').getByRole('textbox');
    expect((await sheet.inputValue()).trim().split('\n')).toHaveLength(40);
    await channel.look();
  });

  it('fits the widest table and breaks the longest word', async () => {
    await open('A1-A6');
    await channel.answerTo(async () => {
      await tryOut.chat.as('linnet').say(`\`\`\`\n${'8'.repeat(38)}\n\`\`\`\n${'long'.repeat(40)}`);
    });
    await channel.page.getByText('linnet', { exact: true }).last().waitFor();
  });

  it('puts the clock on by a tap, and what falls due on the way is posted', async () => {
    await open('A1-A6');
    const clock = channel.page.getByRole('form', { name: 'Clock' });
    await clock.getByRole('button', { name: '+ 1 day' }).click();
    await channel.page.getByText(/^Morning, Wed 14 Apr/).waitFor();
    await channel.page.getByText(/^Evening, Tue 13 Apr/).waitFor();
  });

  it('says what it could not do, and leaves the typed text', async () => {
    await open('A1-A6');
    const { page } = channel;
    const line = page.getByRole('combobox', { name: 'Command or message' });
    await line.fill('/nonsense');
    await page.getByRole('button', { name: 'Send', exact: true }).last().click();
    await page.getByRole('status').filter({ hasText: 'There is no command /nonsense' }).waitFor();
    expect(await line.inputValue()).toBe('/nonsense');
  });
});

/** A picture of one white point. */
const onePixel = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8/5+hHgAHggJ/PchI7wAAAABJRU5ErkJggg==',
  'base64',
);
