import { copyFileSync, existsSync, realpathSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fail, ok, type Result } from '../domain/index.ts';
import {
  besides,
  copyChecked,
  type FileFacts,
  type FileFault,
  flush,
  foldLogIfWhole,
  removeWithLogs,
} from './copies.ts';
import { databaseFile } from './open.ts';

export interface PutBack {
  readonly facts: FileFacts;
  /** Where the database that stood there before is kept, in the data folder; null where there was none. */
  readonly aside: string | null;
}

/** What stands in the way: something about the copy, or about the database that is to be replaced. */
export interface PutBackFault {
  readonly of: 'copy' | 'present';
  readonly is: FileFault;
}

/**
 * Puts a checked copy of `file` in the place of a folder's database. The present one is kept aside under a dated name. Nobody may use the
 * folder meanwhile: hold it first. Interrupted at any moment, the old entries and the new ones are both still on the disk, and the database
 * in place is one of the two.
 * @param stamp date and time for the name, such as 2027-04-13-183000
 */
export async function putBack(folder: string, file: string, stamp: string): Promise<Result<PutBack, PutBackFault>> {
  const inPlace = join(folder, databaseFile);
  if (existsSync(file) && existsSync(inPlace) && realpathSync(file) === realpathSync(inPlace)) {
    return fail({ of: 'copy', is: 'is the database in use' });
  }
  const incoming = `${inPlace}.restoring`;
  const copied = await copyChecked(file, incoming);
  if (!copied.ok) return fail({ of: 'copy', is: copied.fault });
  const hasOld = existsSync(inPlace);
  // A damaged one, which may be why another is put back, is not touched: its log is kept beside it as it is.
  const folded = hasOld ? foldLogIfWhole(inPlace) : ok(undefined);
  if (!folded.ok) {
    removeWithLogs(incoming);
    return fail({ of: 'present', is: folded.fault });
  }
  const aside = hasOld ? keepAside(folder, inPlace, stamp) : null;
  // A log left from the old database would be read into the new one.
  for (const ending of besides) rmSync(`${inPlace}${ending}`, { force: true });
  renameSync(incoming, inPlace);
  flush(folder);
  return ok({ facts: copied.value, aside });
}

/** Copies the present database, with what its log still holds, to a name that is free; the original stays in place. */
function keepAside(folder: string, inPlace: string, stamp: string): string {
  const name = freeName(folder, `berried-replaced-${stamp}`);
  const parts = ['', ...besides].filter((ending) => ending !== '-shm' && existsSync(`${inPlace}${ending}`));
  for (const ending of parts) {
    copyFileSync(`${inPlace}${ending}`, join(folder, `${name}${ending}`));
    flush(join(folder, `${name}${ending}`));
  }
  flush(folder);
  return name;
}

function freeName(folder: string, stem: string): string {
  let name = `${stem}.db`;
  for (let number = 2; existsSync(join(folder, name)); number += 1) name = `${stem}-${number}.db`;
  return name;
}
