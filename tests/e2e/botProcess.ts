import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';

const program = fileURLToPath(new URL('../../src/main.ts', import.meta.url));

/** The bot as its own process, started as `npm start` starts it, with nothing of this process's settings. */
export interface BotProcess {
  readonly child: ChildProcess;
  stdout(): string;
  stderr(): string;
  /** Resolves with what was said so far once `text` was said on either stream; rejects when the process ends before. */
  said(text: string): Promise<string>;
  /** Exit code, or the signal that ended it. */
  readonly ended: Promise<number | string>;
}

export function startProcess(settings: Readonly<Record<string, string>>): BotProcess {
  const { PATH = '', HOME = '' } = process.env;
  const child = spawn(process.execPath, ['--import', 'tsx', program], {
    env: { PATH, HOME, ...settings },
    stdio: 'pipe',
  });
  let out = '';
  let err = '';
  const lookers = new Set<() => void>();
  const hear = (take: (text: string) => void) => (text: string) => {
    take(text);
    for (const look of lookers) look();
  };
  child.stdout.setEncoding('utf8').on(
    'data',
    hear((text) => {
      out += text;
    }),
  );
  child.stderr.setEncoding('utf8').on(
    'data',
    hear((text) => {
      err += text;
    }),
  );
  const ended = once(child, 'close').then(([code, signal]) => (code ?? signal) as number | string);
  return {
    child,
    stdout: () => out,
    stderr: () => err,
    ended,
    said: (text) =>
      new Promise((resolve, reject) => {
        const look = (): void => {
          if (!(out + err).includes(text)) return;
          lookers.delete(look);
          resolve(out + err);
        };
        lookers.add(look);
        look();
        void ended.then((how) => reject(new Error(`ended (${how}) without "${text}": ${err}`)));
      }),
  };
}
