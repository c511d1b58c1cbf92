import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demoYear, stageOn } from '../../seed/demo.ts';
import { type Desk, stock } from '../../src/desk/index.ts';
import type { Instant, LineStock } from '../../src/domain/index.ts';
import { openStore } from '../../src/store/open.ts';
import { taken } from '../support/sellingDesk.ts';
import { type Books, booksOf } from './booksOf.ts';

export const users = { owner: { userId: '11', name: 'linnet' }, partner: { userId: '12', name: 'rowan' } };

/** A demo year that was lived. */
export interface Told {
  readonly desk: Desk;
  readonly books: Books;
  /** The stock of each line at the end of every fifth day: in time it is seen on each day of the week. */
  readonly stocks: readonly LineStock[];
  close(): void;
}

const told = new Map<Instant, Told>();

/** The year that ends at a moment, watched while it is lived; lived once. */
export function yearThatEnds(now: Instant): Told {
  const known = told.get(now);
  if (known !== undefined) return known;
  const folder = mkdtempSync(join(tmpdir(), 'berried-'));
  const store = openStore(folder);
  const stage = stageOn(store, { now, users });
  const stocks: LineStock[] = [];
  store.write(() => {
    let days = 0;
    for (const _ of demoYear(stage, now)) {
      days += 1;
      if (days % 5 === 0) stocks.push(...taken(stock(stage.desk)));
    }
  });
  const books = booksOf(folder);
  const close = (): void => {
    books.close();
    store.close();
    rmSync(folder, { recursive: true, force: true });
  };
  const year = { desk: { ...stage.desk, now: () => now }, books, stocks, close };
  told.set(now, year);
  return year;
}

/** Closes all years, and their folders go. */
export function closeYears(): void {
  for (const year of told.values()) year.close();
  told.clear();
}
