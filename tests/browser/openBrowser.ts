import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const program = '/usr/bin/chromium';

/** Starts the machine's Chromium without a window and without calls home. A machine without it fails the test: it is never left out. */
export async function openBrowser(): Promise<Browser> {
  if (!existsSync(program))
    throw new Error(`The browser test needs Chromium at ${program}: install it with "apt-get install chromium".`);
  return chromium.launch({
    executablePath: program,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}
