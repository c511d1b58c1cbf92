import { FIXED_IDS } from '../ids.ts';
import type { JsonObject, WireAttachment } from '../wire.ts';
import type { StoredFile } from '../world/records.ts';
import type { World } from '../world/world.ts';
import { imageSize } from './imageSize.ts';

export interface Upload {
  /** The number in the part's name, `files[n]`, by which the body refers to it. */
  index: string;
  filename: string;
  contentType: string;
  bytes: Uint8Array;
}

/** Keeps uploaded files and gives each its id. */
export function storeUploads(
  world: World,
  uploads: readonly Upload[],
  described: readonly WireAttachment[],
): StoredFile[] {
  return uploads.map((upload) => {
    const details = described.find((entry) => entry.id === upload.index);
    const filename = (details?.filename ?? upload.filename).replace(/[^\w.()-]+/g, '_');
    return storeFile(world, { ...upload, filename }, details?.description ?? undefined);
  });
}

export function storeFile(world: World, upload: Omit<Upload, 'index'>, description?: string): StoredFile {
  const id = world.ids.next();
  const size = imageSize(upload.bytes);
  world.fileBytes.set(id, upload.bytes);
  return {
    id,
    filename: upload.filename,
    contentType: upload.contentType,
    sizeBytes: upload.bytes.byteLength,
    ...(size === undefined ? {} : size),
    ...(description === undefined ? {} : { description }),
  };
}

export function fileUrl(world: World, file: StoredFile): string {
  return `${world.baseUrl}/local/files/${FIXED_IDS.guild}/${file.id}/${encodeURIComponent(file.filename)}`;
}

export function wireFile(world: World, file: StoredFile): JsonObject {
  const url = fileUrl(world, file);
  return {
    id: file.id,
    filename: file.filename,
    size: file.sizeBytes,
    url,
    proxy_url: url,
    content_type: file.contentType,
    ...(file.widthPx === undefined ? {} : { width: file.widthPx }),
    ...(file.heightPx === undefined ? {} : { height: file.heightPx }),
    ...(file.description === undefined ? {} : { description: file.description }),
  };
}
