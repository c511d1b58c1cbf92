import { existsSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';

/** Folder of the photos, in the data folder and beside a backup of it. */
export const photoFolder = 'photos';

/** The kept photos, as files. */
export function photoStore(folder: string) {
  const places = [join(folder, photoFolder), join(folder, 'backups', photoFolder)];
  return {
    /** Deletes photos by their file names, and their copies among the backups in the data folder; the names of those still there. */
    erase: (names: readonly string[]): string[] =>
      names.filter((name) => {
        const files = places.map((place) => join(place, basename(name)));
        for (const file of files) removeIfPossible(file);
        return files.some((file) => existsSync(file));
      }),
  };
}

/** A file that is held open, or in a folder that is shut, stays; whoever asked is told. */
function removeIfPossible(file: string): void {
  try {
    rmSync(file, { force: true });
  } catch (error) {
    if (!(error instanceof Error && 'syscall' in error)) throw error;
  }
}
