import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Attachment, Ctx } from '../../commands/command.ts';

/** The service itself takes no larger file in a message. */
const MOST_BYTES = 25 * 1024 * 1024;
const WITHIN_MS = 20_000;

const endings: Readonly<Record<string, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/gif': 'gif',
  'image/heic': 'heic',
  'image/heif': 'heif',
};

/** Keeps attached photos in a folder of their own: the service deletes them when it likes, and a claim outlives that. */
export function photoKeeper(folder: string): Ctx['keepPhoto'] {
  return async (photo: Attachment) => {
    const ending = endings[photo.contentType?.split(';')[0] ?? ''];
    if (ending === undefined) return { ok: false, cause: 'it is not a photo (JPEG, PNG, WebP, GIF or HEIC)' };
    if (photo.sizeBytes > MOST_BYTES) return { ok: false, cause: 'it is larger than 25 MB' };
    try {
      const answer = await fetch(photo.url, { signal: AbortSignal.timeout(WITHIN_MS) });
      if (!answer.ok) return { ok: false, cause: `the chat service did not hand it out (status ${answer.status})` };
      const bytes = Buffer.from(await answer.arrayBuffer());
      if (bytes.length > MOST_BYTES) return { ok: false, cause: 'it is larger than 25 MB' };
      const name = `${photo.id}.${ending}`;
      await mkdir(folder, { recursive: true });
      await writeFile(join(folder, name), bytes, { mode: 0o600 });
      return { ok: true, value: name };
    } catch (error) {
      return { ok: false, cause: causeOf(error) };
    }
  };
}

/** Only what fails in the file system names a system call; all else befell the fetching. */
function causeOf(error: unknown): string {
  if (!(error instanceof Error && 'syscall' in error && 'code' in error)) {
    return 'the chat service did not hand it out in time';
  }
  return error.code === 'ENOSPC' ? 'the disk is full' : `it cannot be written (${String(error.code)})`;
}
