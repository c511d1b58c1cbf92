import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import type { ChatAccount } from './chat/index.ts';

const whereabouts = z.object({
  apiUrl: z.string(),
  pageUrl: z.string(),
  token: z.string(),
  guildId: z.string(),
  channelId: z.string(),
});

/** The stand-in chat service in a process of its own. */
export interface StandIn {
  readonly account: ChatAccount;
  readonly pageUrl: string;
  /** Resolves when the process is gone, asked or not. */
  readonly gone: Promise<void>;
  stop(): Promise<void>;
}

type Started = { readonly ok: true; readonly value: StandIn } | { readonly ok: false; readonly cause: string };

/** The stand-in of a bot that was killed takes a moment to notice and to leave the port. */
const TRIES = 4;
const PAUSE_MS = 500;

/** Starts the stand-in on a port of the loopback address (0 takes a free one); it ends with this process, however that ends. */
export async function startStandIn(port: number, stateFile: string): Promise<Started> {
  for (let tries = 1; ; tries += 1) {
    const started = await startOnce(port, stateFile);
    if (started.ok || started.cause !== taken(port) || tries === TRIES) return started;
    await setTimeout(PAUSE_MS);
  }
}

const taken = (port: number): string => `Port ${port} is taken by another program: set BERRIED_PORT to a free one.`;

async function startOnce(port: number, stateFile: string): Promise<Started> {
  const program = fileURLToPath(new URL('./local/main.ts', import.meta.url));
  const child = spawn(
    process.execPath,
    ['--import', import.meta.resolve('tsx'), program, '--port', String(port), '--state', stateFile, '--with-parent'],
    // A group of its own: an interrupt at the keyboard is for the bot, which then stops the stand-in last.
    { stdio: ['pipe', 'pipe', 'pipe'], detached: process.platform !== 'win32', windowsHide: true },
  );
  const gone = once(child, 'exit').then(() => {});
  let complaint = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    complaint = (complaint + text).slice(-4000);
  });
  const line = await Promise.race([firstLine(child), gone]);
  if (line === undefined) return { ok: false, cause: causeOf(complaint, port) };
  const { pageUrl, ...account } = whereabouts.parse(JSON.parse(line));
  return { ok: true, value: { account, pageUrl, gone, stop: () => end(child, gone) } };
}

const firstLine = async (child: ChildProcess): Promise<string | undefined> => {
  if (child.stdout === null) return undefined;
  for await (const line of createInterface({ input: child.stdout })) return line;
  return undefined;
};

const causeOf = (complaint: string, port: number): string =>
  complaint.includes('EADDRINUSE')
    ? taken(port)
    : `The stand-in chat service did not start: ${complaint.trim().split('\n').at(-1) ?? ''}`;

async function end(child: ChildProcess, gone: Promise<void>): Promise<void> {
  child.kill('SIGTERM');
  await gone;
}
