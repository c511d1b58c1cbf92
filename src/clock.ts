import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { type Instant, instantOf, msOf } from './domain/index.ts';

/** Business time. Protocol times are the machine's and do not come from here. */
export interface Clock {
  now(): Instant;
}

/** The demonstration's clock: it runs on like the machine's, at an offset that only grows. */
export interface SettableClock extends Clock {
  /** Puts the clock on to `to`; an instant that is past already changes nothing. */
  setTo(to: Instant): void;
}

export const machineClock: Clock = { now: () => instantOf(new Date()) };

/** Where the demonstration's clock keeps its offset, in the data folder. */
export const clockFile = 'clock.json';

const kept = z.object({ offsetMs: z.number().int(), shownAt: z.iso.datetime() });

/**
 * Opens the demonstration's clock of a data folder: on a fresh folder it starts at `startAt` (null: the machine's time), otherwise it
 * goes on at the kept offset. It never shows a time before one that it was set to, not after a restart either.
 */
export function openDemoClock(folder: string, startAt: Instant | null, machine: Clock = machineClock): SettableClock {
  mkdirSync(folder, { recursive: true });
  const file = join(folder, clockFile);
  const found = readKept(file);
  const machineMs = (): number => msOf(machine.now());
  let offsetMs = found?.offsetMs ?? (startAt === null ? 0 : msOf(startAt) - machineMs());
  let shownMs = found === undefined ? machineMs() + offsetMs : Date.parse(found.shownAt);

  const now = (): Instant => {
    shownMs = Math.max(shownMs, machineMs() + offsetMs);
    return instantOf(new Date(shownMs));
  };
  const keep = (): void => {
    writeFileSync(`${file}.new`, JSON.stringify({ offsetMs, shownAt: now() }));
    renameSync(`${file}.new`, file);
  };

  if (found === undefined) keep();
  return {
    now,
    setTo(to) {
      if (msOf(to) <= msOf(now())) return;
      offsetMs = msOf(to) - machineMs();
      keep();
    },
  };
}

function readKept(file: string): z.infer<typeof kept> | undefined {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw cause;
  }
  return kept.parse(JSON.parse(text));
}
