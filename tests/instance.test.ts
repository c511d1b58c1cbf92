import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { holdFolder } from '../src/instance.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'berried-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

it('a folder is held once, and a refusal names the holder', async () => {
  const first = await holdFolder(folder);
  expect(first.ok).toBe(true);
  expect(await holdFolder(folder)).toEqual({ ok: false, holderPid: process.pid });
  if (first.ok) await first.value.release();
  const second = await holdFolder(folder);
  expect(second.ok).toBe(true);
  if (second.ok) await second.value.release();
});

it('another name for the folder is the same folder, another folder is not', async () => {
  const held = await holdFolder(folder);
  symlinkSync(folder, `${folder}-link`);
  expect((await holdFolder(`${folder}-link`)).ok).toBe(false);
  rmSync(`${folder}-link`);
  const other = await holdFolder(join(folder, 'other'));
  expect(other.ok).toBe(true);
  for (const hold of [held, other]) if (hold.ok) await hold.value.release();
});
