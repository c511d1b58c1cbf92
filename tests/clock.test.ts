import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { clockFile, openDemoClock } from '../src/clock.ts';
import { type Instant, plusMs } from '../src/domain/index.ts';

let folder: string;
let machineNow: Instant;
const machine = { now: () => machineNow };
const at = (text: string) => text as Instant;
const HOUR_MS = 3_600_000;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'berried-'));
  machineNow = at('2026-11-25T10:00:00.000Z');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

it('starts where it is told on a fresh folder, and runs on', () => {
  const clock = openDemoClock(folder, at('2027-04-12T06:00:00.000Z'), machine);
  expect(clock.now()).toBe('2027-04-12T06:00:00.000Z');
  machineNow = plusMs(machineNow, HOUR_MS);
  expect(clock.now()).toBe('2027-04-12T07:00:00.000Z');
});

it("starts at the machine's time when nothing is told", () => {
  expect(openDemoClock(join(folder, 'not', 'there'), null, machine).now()).toBe(machineNow);
});

it('goes on after a restart where it was, whatever start is told then', () => {
  const first = openDemoClock(folder, at('2027-04-12T06:00:00.000Z'), machine);
  first.setTo(at('2027-04-20T06:00:00.000Z'));
  machineNow = plusMs(machineNow, HOUR_MS);
  const second = openDemoClock(folder, at('2027-01-01T00:00:00.000Z'), machine);
  expect(second.now()).toBe('2027-04-20T07:00:00.000Z');
});

it('never goes back, by hand, by the machine, or by a restart', () => {
  const clock = openDemoClock(folder, at('2027-04-12T06:00:00.000Z'), machine);
  clock.setTo(at('2027-04-13T06:00:00.000Z'));
  clock.setTo(at('2027-04-12T06:00:00.000Z'));
  expect(clock.now()).toBe('2027-04-13T06:00:00.000Z');
  machineNow = plusMs(machineNow, -5 * HOUR_MS);
  expect(clock.now()).toBe('2027-04-13T06:00:00.000Z');
  expect(openDemoClock(folder, null, machine).now()).toBe('2027-04-13T06:00:00.000Z');
});

it('does not start on a file that it cannot read', () => {
  writeFileSync(join(folder, clockFile), '{"offsetMs":"soon"}');
  expect(() => openDemoClock(folder, null, machine)).toThrow();
});
