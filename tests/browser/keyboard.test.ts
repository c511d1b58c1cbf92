import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { startTryOut } from '../support/tryOut.ts';
import { openChannel, until } from './channelPage.ts';
import { openBrowser } from './openBrowser.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const STOPS_IN_PARTS = 6;

/** Marks every control that can be used now; of radio buttons of one name, one stands for all. */
const markControls = `(() => {
  const seen = new Set();
  const controls = [...document.querySelectorAll('a[href], button, input, select, textarea')].filter((element) => {
    if (element.disabled || !element.checkVisibility()) return false;
    if (element.type !== 'radio') return true;
    return !seen.has(element.name) && seen.add(element.name);
  });
  controls.forEach((element, index) => { element.dataset.stop = element.type === 'radio' ? element.name : String(index); });
  for (const radio of document.querySelectorAll('input[type=radio]')) radio.dataset.stop = radio.name;
  return controls.map((element) => element.dataset.stop);
})()`;

const focused = 'document.activeElement?.dataset.stop';

it('can be used by keyboard alone, and every control can be reached', async () => {
  const tryOut = await startTryOut();
  onTestFinished(tryOut.close);
  await tryOut.setUp('A1-A6');
  const { page, complaints } = await openChannel(browser, tryOut.pageUrl, false);
  const { keyboard } = page;
  const focus = page.locator(':focus');
  const answers = page.getByRole('log', { name: 'Messages' }).getByRole('listitem');
  await answers.last().waitFor();

  const wanted = (await page.evaluate(markControls)) as string[];
  const reached = new Set<unknown>();
  // A date field has a stop for each of its parts.
  for (let stop = 0; stop < wanted.length + STOPS_IN_PARTS; stop += 1) {
    await keyboard.press('Tab');
    reached.add(await page.evaluate(focused));
  }
  expect(wanted.filter((stop) => !reached.has(stop))).toEqual([]);

  await page.getByRole('link', { name: 'Skip to the command line' }).focus();
  await keyboard.press('Enter');
  await keyboard.type('/cou');
  await page.getByRole('option', { name: '/count log' }).waitFor();
  await keyboard.press('Enter');
  await page.getByRole('option', { name: 'A1 · Orange' }).waitFor();
  await keyboard.press('ArrowDown');
  await keyboard.press('ArrowDown');
  await keyboard.press('Enter');
  await keyboard.press('Tab');
  await keyboard.type('30');
  await keyboard.press('Enter');
  const counted = answers.filter({ hasText: 'A2: 30 saleable Orange' });
  await counted.waitFor();
  await until(page, 'document.activeElement.id === "command"', 'the keyboard is back at the command line');

  const undo = counted.getByRole('button', { name: 'Undo' });
  while ((await undo.and(focus).count()) === 0) await keyboard.press('Shift+Tab');
  await keyboard.press('Enter');
  const undoIt = page.getByRole('button', { name: 'Undo it' });
  await undoIt.waitFor();
  while ((await undoIt.and(focus).count()) === 0) await keyboard.press('Tab');
  await keyboard.press('Enter');
  await answers.filter({ hasText: 'undone by rowan' }).waitFor();

  expect(complaints).toEqual([]);
});
