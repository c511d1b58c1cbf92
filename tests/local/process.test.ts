import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const MAIN = fileURLToPath(new URL('../../src/local/main.ts', import.meta.url));

function start(...options: string[]): ChildProcess {
  return spawn(process.execPath, ['--import', 'tsx', MAIN, ...options], { stdio: ['pipe', 'pipe', 'pipe'] });
}

async function firstLine(
  child: ChildProcess,
): Promise<{ port: number; apiUrl: string; pageUrl: string; token: string }> {
  if (child.stdout === null) throw new Error('the output is not piped');
  const [line] = (await once(createInterface(child.stdout), 'line')) as [string];
  return JSON.parse(line) as Awaited<ReturnType<typeof firstLine>>;
}

describe('as its own process', () => {
  it('says where it is, serves the page, and ends cleanly when told to', async () => {
    const child = start('--port', '0', '--token', 'chosen');
    const where = await firstLine(child);
    expect(where).toMatchObject({
      apiUrl: `http://127.0.0.1:${where.port}/api`,
      pageUrl: `http://127.0.0.1:${where.port}/`,
      token: 'chosen',
    });
    const page = await fetch(where.pageUrl);
    expect([page.status, page.headers.get('content-type')]).toEqual([200, 'text/html; charset=utf-8']);
    const html = await page.text();
    for (const [, path] of html.matchAll(/(?:src|href)="(\/[^"]+)"/g))
      expect((await fetch(new URL(path ?? '', where.pageUrl))).status).toBe(200);
    for (const path of ['/nothing.js', '/..%2fmain.ts', '/main.ts'])
      expect((await fetch(new URL(path, where.pageUrl))).status).toBe(404);
    child.kill('SIGTERM');
    expect(await once(child, 'exit')).toEqual([0, null]);
  });

  it('ends with its parent when started so', async () => {
    const child = start('--with-parent');
    await firstLine(child);
    child.stdin?.end();
    expect(await once(child, 'exit')).toEqual([0, null]);
  });

  it('refuses a port that is none', async () => {
    const child = start('--port', 'many');
    const [code] = (await once(child, 'exit')) as [number];
    expect(code).not.toBe(0);
  });
});
