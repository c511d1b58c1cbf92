import { readFile } from 'node:fs/promises';
import type { ServerResponse } from 'node:http';

const TYPES: Record<string, string> = {
  html: 'text/html; charset=utf-8',
  css: 'text/css; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  svg: 'image/svg+xml',
};

/** Serves the page's own files; anything else is not found. */
export async function servePage(path: string, response: ServerResponse): Promise<void> {
  const name = path === '/' ? 'index.html' : path.slice(1);
  const type = /^[a-zA-Z]+\.(html|css|js|svg)$/.exec(name)?.[1];
  const content =
    type === undefined ? undefined : await readFile(new URL(`./page/${name}`, import.meta.url)).catch(() => undefined);
  if (type === undefined || content === undefined) {
    response.statusCode = 404;
    response.end('not found');
    return;
  }
  response.setHeader('Content-Type', TYPES[type] ?? 'text/plain');
  response.setHeader('Cache-Control', 'no-cache');
  response.setHeader(
    'Content-Security-Policy',
    "default-src 'self'; img-src 'self' data: blob: https:; base-uri 'none'; form-action 'none'",
  );
  response.end(content);
}
