import type { Browser, Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { nameless } from './accessibleNames.ts';

/** A phone's page, held upright. */
const viewport = { width: 360, height: 780 };

/** The page of the channel as a person uses it. Each look at it also checks that it is in order. */
export interface ChannelPage {
  readonly page: Page;
  /** Everything that the browser complained of. */
  readonly complaints: readonly string[];
  /** Becomes another person. */
  become(name: string): Promise<void>;
  /** Picks a command from the list and fills in its fields by name; a field with a list of choices by the choice's words. */
  fill(command: string, values?: Readonly<Record<string, string>>): Promise<void>;
  /** The field of an option of the command that is being filled in. */
  field(option: string): Locator;
  /** Runs the command that is filled in, and gives the message that answers it. */
  run(): Promise<Locator>;
  /** Does something that is answered by a message, and gives that message. */
  answerTo(act: () => Promise<void>): Promise<Locator>;
  /** Checks width, names and position of what is on the page now. */
  look(): Promise<void>;
  close(): Promise<void>;
}

export async function openChannel(browser: Browser, url: string, hasTouch = true): Promise<ChannelPage> {
  const context = await browser.newContext({ viewport, hasTouch, isMobile: hasTouch, locale: 'en-GB' });
  context.setDefaultTimeout(10_000);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(url);
  await page.getByRole('status').filter({ hasText: 'is connected' }).waitFor();
  await page.getByRole('radio').first().waitFor();

  const messages = page.getByRole('log', { name: 'Messages' }).getByRole('listitem');
  const field = (option: string) =>
    page.getByRole('group', { name: 'Options of' }).getByLabel(new RegExp(`^${option}( \\(needed\\))?$`));

  const look = async () => {
    expect(await page.evaluate('document.documentElement.scrollWidth'), 'width of the page').toBe(viewport.width);
    expect(await page.evaluate(widerThanTheirBox), 'tables that must be scrolled').toEqual([]);
    expect(await nameless(page), 'controls without a name').toEqual([]);
  };
  const answerTo = async (act: () => Promise<void>) => {
    const last = messages.nth(await messages.count());
    await act();
    await last.waitFor();
    await until(page, newestIsInView, 'the newest message is in view');
    await look();
    return last;
  };

  return {
    page,
    complaints,
    field,
    look,
    answerTo,
    async become(name) {
      await page.getByRole('radio', { name, exact: true }).check();
      await until(page, `document.title.endsWith('· ${name}')`, `the page is that of ${name}`);
    },
    async fill(command, values = {}) {
      await page.getByRole('combobox', { name: 'Command or message' }).fill(`/${command}`);
      await page
        .getByRole('option', { name: `/${command}` })
        .first()
        .click();
      for (const [option, value] of Object.entries(values)) {
        const input = field(option);
        if ((await input.and(page.locator('select')).count()) === 1) await input.selectOption(value);
        else await input.fill(value);
      }
      await look();
    },
    run: () => answerTo(() => page.getByRole('button', { name: 'Run' }).click()),
    close: () => context.close(),
  };
}

/**
 * Waits until an expression is true on the page. The page forbids evaluating text, so that it cannot be asked to watch for itself.
 * @param what says what is waited for
 */
export async function until(page: Page, expression: string, what: string): Promise<void> {
  await expect.poll(() => page.evaluate(expression), { timeout: 10_000, message: what }).toBe(true);
}

/** Code blocks that do not fit: 38 characters must stand side by side without scrolling. */
const widerThanTheirBox =
  '[...document.querySelectorAll("pre")].filter((e) => e.scrollWidth > e.clientWidth).map((e) => e.textContent)';

/** Whether the first line of the newest message stands between the bars at the top and at the foot. */
const newestIsInView = `(() => {
  const box = document.querySelector('#messages').lastElementChild.getBoundingClientRect();
  const top = document.querySelector('.people').getBoundingClientRect().bottom;
  const foot = document.querySelector('footer').getBoundingClientRect().top;
  return box.top >= top - 1 && box.top < foot && (box.bottom <= foot + 1 || box.top < top + 100);
})()`;
