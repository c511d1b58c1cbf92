import { copyFileSync, existsSync, mkdirSync, readdirSync, renameSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Copies the photos that are in one folder and not yet in the other; a photo never changes once it is kept. Each appears under its name
 * only when it is there in full.
 * @returns how many photos the second folder then holds of the first
 */
export function copyMissingPhotos(from: string, to: string): number {
  if (!existsSync(from)) return 0;
  const names = readdirSync(from, { withFileTypes: true })
    .filter((found) => found.isFile() && !found.name.endsWith('.part'))
    .map(({ name }) => name);
  if (names.length > 0) mkdirSync(to, { recursive: true });
  for (const name of names.filter((photo) => !existsSync(join(to, photo)))) {
    copyFileSync(join(from, name), join(to, `${name}.part`));
    renameSync(join(to, `${name}.part`), join(to, name));
  }
  return names.length;
}
