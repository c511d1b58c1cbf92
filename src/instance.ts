import { createHash } from 'node:crypto';
import { mkdirSync, realpathSync, unlinkSync } from 'node:fs';
import { connect, createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Holds a data folder for this process until released, or until the process is gone, however it went. */
export interface Hold {
  release(): Promise<void>;
}

/**
 * Takes a data folder for this process. The lock is a bound local socket: the system frees it with the process, so nothing is left
 * behind by a kill, and whoever asks it gets the holder's process id.
 */
export async function holdFolder(
  folder: string,
): Promise<{ readonly ok: true; readonly value: Hold } | { readonly ok: false; readonly holderPid: number | null }> {
  mkdirSync(folder, { recursive: true });
  const address = addressOf(realpathSync(folder));
  const first = await bind(address);
  if (first !== undefined) return { ok: true, value: holdOf(first) };
  const holderPid = await askHolder(address);
  if (holderPid !== undefined || !address.startsWith('/')) return { ok: false, holderPid: holderPid ?? null };
  unlinkSync(address);
  const second = await bind(address);
  return second === undefined ? { ok: false, holderPid: null } : { ok: true, value: holdOf(second) };
}

/** A name in the system's own table where there is one (nothing on disk), else a socket file, which outlives a killed holder. */
function addressOf(folder: string, platform: NodeJS.Platform = process.platform): string {
  const name = `berried-${createHash('sha256').update(folder).digest('hex').slice(0, 24)}`;
  if (platform === 'linux') return `\0${name}`;
  if (platform === 'win32') return `\\\\.\\pipe\\${name}`;
  return join(tmpdir(), `${name}.sock`);
}

function bind(address: string): Promise<Server | undefined> {
  const server = createServer((socket) => {
    socket.on('error', () => socket.destroy());
    socket.end(String(process.pid));
  });
  return new Promise((resolve, reject) => {
    server.once('error', (cause: NodeJS.ErrnoException) => {
      if (cause.code === 'EADDRINUSE' || cause.code === 'EACCES') resolve(undefined);
      else reject(cause);
    });
    server.listen(address, () => resolve(server.unref()));
  });
}

const ANSWER_WITHIN_MS = 2_000;

/** The process id of whoever listens there; null when it does not say, undefined when nobody listens. */
function askHolder(address: string): Promise<number | null | undefined> {
  return new Promise((resolve) => {
    let answer = '';
    const socket = connect(address);
    socket.setEncoding('utf8').on('data', (text) => {
      answer += text;
    });
    socket.once('end', () => resolve(Number(answer)));
    socket.once('error', () => resolve(undefined));
    socket.setTimeout(ANSWER_WITHIN_MS, () => {
      resolve(null);
      socket.destroy();
    });
  });
}

const holdOf = (server: Server): Hold => ({
  release: () => new Promise((resolve) => server.close(() => resolve())),
});
