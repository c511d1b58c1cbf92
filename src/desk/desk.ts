import {
  type Business,
  type By,
  dayOf,
  defaultBusiness,
  type EntryKind,
  type Instant,
  isTimeZone,
  type LocalDay,
} from '../domain/index.ts';
import type { Store } from '../store/open.ts';

/** What every act and question of the business needs. */
export interface Desk {
  readonly store: Store;
  /** The business clock. */
  readonly now: () => Instant;
  /** Zone of the business until it is set: the machine's. */
  readonly machineZone: string;
  /** Public holidays of a region in a year; none for a region that is not known. */
  readonly holidays: (region: string, year: number) => readonly { readonly day: LocalDay; readonly name: string }[];
  /** Whether a region has a calendar of public holidays. */
  readonly isRegion: (region: string) => boolean;
}

/** The settings as they stand, defaults where nothing was set. */
export function businessOf(desk: Desk): Business {
  const set = Object.fromEntries(desk.store.settings.all()) as Partial<Business>;
  const zone = isTimeZone(desk.machineZone) ? desk.machineZone : defaultBusiness.zone;
  return { ...defaultBusiness, zone, ...set };
}

/** Today in the business's zone. */
export const todayOf = (desk: Desk, business: Business = businessOf(desk)): LocalDay =>
  dayOf(desk.now(), business.zone);

/** Writes one entry with its facts in one immediate transaction; the entry's id. */
export function log(
  desk: Desk,
  by: By,
  kind: EntryKind,
  summary: string,
  write: (entryId: number, now: Instant) => void,
): number {
  const now = desk.now();
  return desk.store.write(() => {
    const entryId = desk.store.entries.add(by, kind, summary, now);
    write(entryId, now);
    return entryId;
  });
}

/** The key of the `n`th entry that one interaction writes. */
export const nth = (by: By, n: number): By => (n === 0 ? by : { ...by, key: `${by.key}#${n}` });
