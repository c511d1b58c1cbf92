import { dirname, join, resolve } from 'node:path';
import { readConfig } from './config.ts';
import { fail, ok, type Result } from './domain/index.ts';
import { fileWords, stampOf, tell } from './fileWords.ts';
import { holdFolder } from './instance.ts';
import { copyMissingPhotos } from './photoCopies.ts';
import { databaseFile } from './store/open.ts';
import { photoFolder } from './store/photos.ts';
import { putBack } from './store/putBack.ts';

const unchanged = 'Nothing was restored';

/** `npm run restore -- FILE`: puts a backup in the place of the database, which is kept aside; the bot must be stopped. */
async function restore(dataFolder: string, file: string | undefined): Promise<Result<string, string>> {
  if (file === undefined) return fail(`${unchanged}: name the backup, as in npm run restore -- data/backups/FILE.db`);
  const held = await holdFolder(dataFolder);
  if (!held.ok) {
    const who = held.holderPid === null ? 'another process' : `process ${held.holderPid}`;
    return fail(`${unchanged}: the bot runs on the data folder ${dataFolder} (${who}). Stop it, then restore again.`);
  }
  try {
    const now = new Date();
    const done = await putBack(dataFolder, resolve(file), stampOf(now));
    if (!done.ok) {
      const what = done.fault.of === 'copy' ? file : join(dataFolder, databaseFile);
      return fail(`${unchanged}: ${what} ${done.fault.is}.`);
    }
    const { facts, aside } = done.value;
    const photos = copyMissingPhotos(join(dirname(resolve(file)), photoFolder), join(dataFolder, photoFolder));
    return ok(
      [
        `Restored ${file}: ${fileWords(facts, now)}.`,
        aside === null
          ? 'There was no database before.'
          : `The database that was there is kept as ${join(dataFolder, aside)}.`,
        ...(photos === 0 ? [] : [`The ${photos} photos beside it are in place.`]),
        'Start the bot again.',
      ].join('\n'),
    );
  } finally {
    await held.value.release();
  }
}

const read = readConfig({ BERRIED_DATA: process.env['BERRIED_DATA'] });
await tell(unchanged, async () =>
  read.ok ? restore(read.value.dataFolder, process.argv[2]) : fail(read.problems.join(' ')),
);
