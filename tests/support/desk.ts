import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isRegion, publicHolidays } from '../../src/calendar/index.ts';
import type { Desk } from '../../src/desk/index.ts';
import { type By, type Instant, instantOf, plusMs } from '../../src/domain/index.ts';
import { openStore } from '../../src/store/open.ts';

/** How far the clock is put on. */
export interface Stretch {
  readonly days?: number;
  readonly hours?: number;
  readonly minutes?: number;
}

export interface DeskOptions {
  /** Zone of the machine, which the business has until it is set; default Europe/Amsterdam. */
  readonly zone?: string;
}

/**
 * A desk on a real database file in a folder of its own, with a clock that stands at `instant` ("2027-04-13T08:00:00Z") until it is put
 * on. Close it when done: the folder goes.
 */
export function deskAt(instant: string, { zone = 'Europe/Amsterdam' }: DeskOptions = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'berried-'));
  const store = openStore(folder);
  let now = instantOf(new Date(instant));
  let keys = 0;
  const desk: Desk = {
    store,
    now: () => now,
    machineZone: zone,
    holidays: (region, year) => (isRegion(region) ? publicHolidays(region, year) : []),
    isRegion,
  };

  return {
    desk,
    folder,
    /** A person acting, with a fresh key each time: one call for each interaction. */
    by: (name: string): By => {
      keys += 1;
      return { userId: `user-${name}`, name, key: `key-${keys}` };
    },
    /** Puts the clock on; the moment that it then shows. */
    advance: ({ days = 0, hours = 0, minutes = 0 }: Stretch): Instant => {
      now = plusMs(now, ((days * 24 + hours) * 60 + minutes) * 60_000);
      return now;
    },
    close: (): void => {
      store.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export type TestDesk = ReturnType<typeof deskAt>;
