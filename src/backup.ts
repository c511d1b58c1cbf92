import { existsSync, mkdirSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { readConfig } from './config.ts';
import { fail, ok, type Result } from './domain/index.ts';
import { fileWords, stampOf, tell } from './fileWords.ts';
import { copyMissingPhotos } from './photoCopies.ts';
import { copyChecked } from './store/copies.ts';
import { databaseFile } from './store/open.ts';
import { photoFolder } from './store/photos.ts';

/**
 * `npm run backup [-- FOLDER_OR_FILE]`: a checked copy of the database, and of the photos beside it; the bot may run meanwhile. Nothing
 * that is there already is replaced.
 */
async function backUp(dataFolder: string, target: string | undefined): Promise<Result<string, string>> {
  const from = join(dataFolder, databaseFile);
  if (!existsSync(from)) {
    return fail(`No backup was made: there is no database in ${dataFolder}. Start the bot once, or set BERRIED_DATA.`);
  }
  const now = new Date();
  const wanted = resolve(target ?? join(dataFolder, 'backups'));
  const to = wanted.endsWith('.db') ? wanted : join(wanted, `berried-${stampOf(now)}.db`);
  const shown = relative('.', to);
  if (existsSync(to)) return fail(`No backup was made: ${shown} is there already. Give another name.`);
  mkdirSync(dirname(to), { recursive: true });
  const copied = await copyChecked(from, to);
  if (!copied.ok) return fail(`No backup was made: ${from} ${copied.fault}.`);
  const photos = copyMissingPhotos(join(dataFolder, photoFolder), join(dirname(to), photoFolder));
  const photoWords = photos === 0 ? '' : `; ${photos} photos beside it`;
  return ok(`Backed up to ${shown}, checked: ${fileWords(copied.value, now)}${photoWords}.`);
}

const read = readConfig({ BERRIED_DATA: process.env['BERRIED_DATA'] });
await tell('No backup was made', async () =>
  read.ok ? backUp(read.value.dataFolder, process.argv[2]) : fail(read.problems.join(' ')),
);
