import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { photoKeeper } from '../../src/chat/keepPhoto.ts';

const folder = mkdtempSync(join(tmpdir(), 'berried-'));
const bytes = Buffer.from([0xff, 0xd8, 0xff, 0xe0]);
let server: Server;
let base: string;

beforeAll(async () => {
  server = createServer((request, response) => {
    if (request.url !== '/bag.jpg') response.statusCode = 404;
    response.end(bytes);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});
afterAll(() => {
  server.close();
  rmSync(folder, { recursive: true, force: true });
});

const photo = () => ({
  id: '77',
  name: '../../bag.jpg',
  url: `${base}/bag.jpg`,
  sizeBytes: 4,
  contentType: 'image/jpeg',
});

it('a photo lands in the data folder under its id, for nobody else to read', async () => {
  expect(await photoKeeper(folder)(photo())).toEqual({ ok: true, value: '77.jpg' });
  const file = join(folder, '77.jpg');
  expect(readFileSync(file)).toEqual(bytes);
  expect(statSync(file).mode & 0o077).toBe(0);
});

it.each([
  ['what is no photo', { contentType: 'text/html' }, 'it is not a photo'],
  ['what has no kind', { contentType: null }, 'it is not a photo'],
  ['what is too large', { sizeBytes: 26 * 1024 * 1024 }, 'larger than 25 MB'],
])('%s is not kept', async (_, change, cause) => {
  expect(await photoKeeper(folder)({ ...photo(), ...change })).toEqual({
    ok: false,
    cause: expect.stringContaining(cause),
  });
});

it('a photo that the service has no longer is said so', async () => {
  expect(await photoKeeper(folder)({ ...photo(), url: `${base}/gone.jpg` })).toEqual({
    ok: false,
    cause: expect.stringContaining('status 404'),
  });
  expect(await photoKeeper(folder)({ ...photo(), url: 'http://127.0.0.1:1/x' })).toMatchObject({ ok: false });
});

it('a folder that cannot be written is not blamed on the chat service', async () => {
  const shut = join(folder, 'shut');
  writeFileSync(shut, '');
  const kept = await photoKeeper(join(shut, 'photos'))(photo());
  expect(kept).toEqual({ ok: false, cause: 'it cannot be written (ENOTDIR)' });
});
