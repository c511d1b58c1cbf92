import { afterEach, expect, it } from 'vitest';
import { postFor } from '../../src/jobs/posts.ts';
import { runDue } from '../../src/jobs/runDue.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';
import { makeChannel, silentLog } from './channel.ts';

let at: Keyboard;
afterEach(() => at.close());

it('keeps the rota that a post told once it is sent, and not while it may not have been', async () => {
  at = keyboardAt('2027-04-12T18:00:00Z');
  at.desk.store.settings.startedAt(at.desk.now());
  await at.begin('A1-A3');
  const channel = makeChannel(['lost without an answer']);
  const needs = {
    desk: at.desk,
    posting: channel.posting,
    postOf: (slot: Parameters<typeof postFor>[1], lateMinutes: number) => postFor(at.desk, slot, lateMinutes),
    log: silentLog,
  };
  at.advance({ hours: 12 });
  await runDue(at.desk.now(), needs);
  expect(at.desk.store.rota.told()).toEqual([]);
  at.advance({ minutes: 1 });
  await runDue(at.desk.now(), needs);
  expect(channel.keys()).toEqual(['morning-2027-04-13']);
  const told = at.desk.store.rota.told();
  expect(told.some(({ on }) => on === '2027-04-13')).toBe(true);
  expect(told.every(({ userId }) => userId === 'user-wren')).toBe(true);
});
