import type { ServerResponse } from 'node:http';
import type { World } from '../world/world.ts';

/** Kinds that a browser may show in place; anything else is handed over as a download. */
const SHOWN: Record<string, string> = {
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  gif: 'image/gif',
  webp: 'image/webp',
};

/** Serves an uploaded file at `/local/files/{guild}/{id}/{name}`. */
export function serveFile(world: World, path: string, response: ServerResponse): void {
  const [id, name] = path.split('/').slice(4);
  const bytes = world.fileBytes.get(id ?? '');
  if (bytes === undefined) {
    response.statusCode = 404;
    response.end('not found');
    return;
  }
  const ending = name?.split('.').at(-1)?.toLowerCase() ?? '';
  response.setHeader('Content-Type', SHOWN[ending] ?? 'application/octet-stream');
  response.setHeader('X-Content-Type-Options', 'nosniff');
  if (SHOWN[ending] === undefined) response.setHeader('Content-Disposition', 'attachment');
  response.end(Buffer.from(bytes));
}
