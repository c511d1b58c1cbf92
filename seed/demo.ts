import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { isRegion, publicHolidays } from '../src/calendar/index.ts';
import type { Desk } from '../src/desk/index.ts';
import { dayOf, type Instant, type LocalDay } from '../src/domain/index.ts';
import { databaseFile, openStore, type Store } from '../src/store/open.ts';
import { zone } from './founding.ts';
import { openStage, type Stage, type Users } from './stage.ts';
import { liveYear } from './year.ts';
import { daysOfYear, openYearClock } from './yearClock.ts';

export interface SeedInput {
  /** Data folder, made where there is none; it has no database yet. */
  readonly folder: string;
  /** The moment at which the year ends: nothing is logged on its day or after. */
  readonly now: Instant;
  readonly users: Users;
  readonly machineZone?: string;
}

export interface SeedSummary {
  readonly first: LocalDay;
  readonly last: LocalDay;
  /** Times that one of the two acted. */
  readonly acts: number;
  readonly sales: number;
  readonly parcels: number;
}

const demoSeed = 20_260_413;

export const hasDatabase = (folder: string): boolean => existsSync(join(folder, databaseFile));

/** A stage on a store with the clock at the beginning of the year that ends before `now`. */
export function stageOn(store: Store, { now, users, machineZone = zone }: Omit<SeedInput, 'folder'>): Stage {
  const { first } = daysOfYear(now, zone);
  const clock = openYearClock(first, now, zone);
  const desk: Desk = {
    store,
    now: clock.now,
    machineZone,
    holidays: holidaysOnce(),
    isRegion,
  };
  return openStage(desk, clock, users, dayOf(now, zone));
}

/** The calendar of public holidays, each year of a region worked out once: the year asks for them thousands of times. */
function holidaysOnce(): Desk['holidays'] {
  const known = new Map<string, ReturnType<Desk['holidays']>>();
  return (region, year) => {
    const key = `${region} ${year}`;
    const found = known.get(key) ?? (isRegion(region) ? publicHolidays(region, year) : []);
    known.set(key, found);
    return found;
  };
}

/** The days of the demo year on a stage. */
export const demoYear = (stage: Stage, now: Instant) => liveYear(stage, daysOfYear(now, zone), demoSeed);

/**
 * Fills a data folder with a year of the demo business. The database is built aside in one transaction and put in its place when it is
 * whole, so a run that is cut short leaves nothing. Throws where the folder has a database already: ask `hasDatabase` first.
 */
export function seedDemo(input: SeedInput): SeedSummary {
  const { folder, now } = input;
  if (hasDatabase(folder)) throw new Error(`there is a database in ${folder} already`);
  mkdirSync(folder, { recursive: true });
  const aside = mkdtempSync(join(folder, 'seeding-'));
  try {
    const store = openStore(aside);
    try {
      const stage = stageOn(store, input);
      const counts = store.write(() => lastOf(demoYear(stage, now)));
      store.close();
      renameSync(join(aside, databaseFile), join(folder, databaseFile));
      return { ...daysOfYear(now, zone), ...counts, acts: stage.acts() };
    } catch (cause) {
      store.close();
      throw cause;
    }
  } finally {
    rmSync(aside, { recursive: true, force: true });
  }
}

/** Runs a generator to its end; what it returns. */
function lastOf<T>(steps: Generator<unknown, T, undefined>): T {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}
