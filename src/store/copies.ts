import { closeSync, fsyncSync, openSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { fail, type Instant, ok, type Result } from '../domain/index.ts';
import { migrations } from './migrate.ts';

const latestSchema = migrations.at(-1)?.version ?? 0;

/** What stands in a database file that was found whole. */
export interface FileFacts {
  readonly schema: number;
  /** Rows of facts: all but the headings and the ledger of posts. */
  readonly facts: number;
  /** When the newest entry was logged; null where there is none. */
  readonly newestAt: Instant | null;
  readonly bytes: number;
}

/** Why a file can't be used, as the end of a sentence about it: "is damaged: …". */
export type FileFault = string;

/** Looks a database file through without changing it: its pages, references and schema. */
function inspectFile(file: string): Result<FileFacts, FileFault> {
  return guarded(() => {
    const db = new Database(file, { readonly: true, fileMustExist: true });
    try {
      return inspect(db, file);
    } finally {
      db.close();
    }
  });
}

/**
 * Copies a database to a file, safe while others write to it, and checks the copy. The file appears under its name only when the copy is
 * whole and on the disk; one that had the name before is replaced then.
 */
export async function copyChecked(from: string, to: string): Promise<Result<FileFacts, FileFault>> {
  const part = `${to}.part`;
  removeWithLogs(part);
  const copied = await copyLive(from, part);
  const looked = copied.ok ? inspectFile(part) : copied;
  if (looked.ok) {
    flush(part);
    renameSync(part, to);
    flush(dirname(to));
  } else removeWithLogs(part);
  return looked;
}

async function copyLive(from: string, to: string): Promise<Result<undefined, FileFault>> {
  try {
    const source = new Database(from, { readonly: true, fileMustExist: true });
    try {
      await source.backup(to);
    } finally {
      source.close();
    }
    foldLog(to);
    return ok(undefined);
  } catch (error) {
    return fail(faultOf(error));
  }
}

/** Brings the log of a database into its file, as `foldLog`, but leaves one that is not whole as it is. */
export function foldLogIfWhole(file: string): Result<undefined, FileFault> {
  return guarded(() => {
    if (inspectFile(file).ok) foldLog(file);
    return ok(undefined);
  });
}

/** Brings the write-ahead log of a database that nobody uses into its file, which then stands alone. Throws where it is damaged. */
function foldLog(file: string): void {
  const db = new Database(file, { fileMustExist: true });
  try {
    db.pragma('journal_mode = DELETE');
  } finally {
    db.close();
  }
}

/** Files that SQLite keeps beside a database. */
export const besides = ['-wal', '-shm', '-journal'] as const;

export function removeWithLogs(file: string): void {
  for (const ending of [...besides, '']) rmSync(`${file}${ending}`, { force: true });
}

/** Has the system write a file, or the names in a folder, to the disk. */
export function flush(path: string): void {
  // Windows opens no folder; its file system orders renames by itself.
  if (process.platform === 'win32' && statSync(path).isDirectory()) return;
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'EPERM')) throw error;
  } finally {
    closeSync(handle);
  }
}

function inspect(db: Database.Database, file: string): Result<FileFacts, FileFault> {
  const found = db.pragma('integrity_check', { simple: true });
  if (found !== 'ok') return fail(`is damaged: ${String(found).split('\n')[0]}`);
  const tables = db
    .prepare<[], { name: string }>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .all()
    .map(({ name }) => name);
  const schema = Number(db.pragma('user_version', { simple: true }));
  if (schema < 1 || !tables.includes('entry')) return fail('is not a database of Berried');
  if (schema > latestSchema) {
    return fail(
      `was made by a newer version of Berried (schema ${schema}; this program knows ${latestSchema}): start the newer program`,
    );
  }
  const broken = (db.pragma('foreign_key_check') as unknown[]).length;
  if (broken > 0) return fail(`is damaged: ${broken} rows point at nothing`);
  const headings = new Set(['entry', 'started', 'job_run']);
  const rows = tables
    .filter((name) => !headings.has(name))
    .map((name) => db.prepare<[], { rows: number }>(`SELECT count(*) AS rows FROM "${name}"`).get()?.rows ?? 0);
  const newest = db.prepare<[], { at: Instant | null }>('SELECT max(logged_at) AS at FROM entry').get();
  return ok({
    schema,
    facts: rows.reduce((sum, number) => sum + number, 0),
    newestAt: newest?.at ?? null,
    bytes: statSync(file).size,
  });
}

function guarded<T>(look: () => Result<T, FileFault>): Result<T, FileFault> {
  try {
    return look();
  } catch (error) {
    return fail(faultOf(error));
  }
}

/** What SQLite says of a file that it can't use; anything else is a bug. */
function faultOf(error: unknown): FileFault {
  if (!(error instanceof Database.SqliteError)) throw error;
  if (error.code === 'SQLITE_NOTADB') return 'is not a database';
  if (error.code.startsWith('SQLITE_CORRUPT')) return `is damaged: ${error.message}`;
  if (error.code.startsWith('SQLITE_CANTOPEN')) return 'is not there, or may not be opened';
  if (error.code.startsWith('SQLITE_BUSY')) return 'is open in another program';
  return `can't be read: ${error.message}`;
}
