import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Instant } from '../../src/domain/index.ts';
import { draftStore } from '../../src/store/drafts.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';
import { rowCounts } from '../support/rowCounts.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T08:00:00Z');
});
afterEach(() => bench.close());

const at = (day: number): Instant => `2027-04-${day}T08:00:00.000Z` as Instant;
const draft = { path: 'reading log', raw: { tub: 'A1', temp: 72 }, patches: [{ temp: 22.2 }] };

describe('drafts', () => {
  it('come back as they were kept, also after a restart', () => {
    const id = bench.desk.store.drafts.keep(at(13), draft);
    const reopened = draftStore(join(bench.folder, 'drafts.db'));
    expect(reopened.get(id)).toEqual({ id, ...draft });
    reopened.close();
  });

  it('are no facts: they lie in a file of their own', () => {
    const before = rowCounts(bench.folder);
    bench.desk.store.drafts.keep(at(13), draft);
    expect(rowCounts(bench.folder)).toEqual(before);
    expect(existsSync(join(bench.folder, 'drafts.db'))).toBe(true);
  });

  it('go when they are dropped or old, and their number is not used again', () => {
    const { drafts } = bench.desk.store;
    const [old, fresh] = [drafts.keep(at(10), draft), drafts.keep(at(13), draft)];
    drafts.dropBefore(at(12));
    expect(drafts.get(old)).toBeUndefined();
    expect(drafts.get(fresh)?.id).toBe(fresh);
    drafts.drop(fresh);
    expect(drafts.get(fresh)).toBeUndefined();
    expect(drafts.keep(at(13), draft)).toBeGreaterThan(fresh);
  });
});
