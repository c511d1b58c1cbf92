import { join } from 'node:path';
import type { Ending } from './chat/index.ts';
import { NewerDatabase } from './store/migrate.ts';
import { databaseFile } from './store/open.ts';

/** System calls on files: what the person at the machine can mend by rights or room. */
const fileCalls = ['mkdir', 'open', 'realpath', 'unlink', 'write', 'rename'];

/** Why the data folder cannot be worked with, in a sentence for whoever runs the bot; undefined where the error says something else. */
export function endingOfFolder(error: unknown, folder: string): Ending | undefined {
  if (error instanceof NewerDatabase) return { sentence: error.message, mayRetry: false };
  if (!(error instanceof Error && 'code' in error)) return undefined;
  const database = join(folder, databaseFile);
  switch (error.code) {
    case 'SQLITE_NOTADB':
    case 'SQLITE_CORRUPT':
      return { sentence: `${database} is damaged (${error.message}): restore a backup.`, mayRetry: false };
    case 'SQLITE_CANTOPEN':
    case 'SQLITE_READONLY':
      return { sentence: `${database} cannot be written (${error.message}): mend its rights.`, mayRetry: false };
    case 'SQLITE_FULL':
      return { sentence: `The disk of ${folder} is full: make room, then start again.`, mayRetry: true };
  }
  const isFileCall = 'syscall' in error && fileCalls.includes(String(error.syscall));
  return isFileCall
    ? { sentence: `The data folder ${folder} cannot be used (${error.message}).`, mayRetry: false }
    : undefined;
}
