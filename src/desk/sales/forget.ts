import {
  addDays,
  type By,
  fail,
  folded,
  type LocalDay,
  nearest,
  ok,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import type { BuyerTrace } from '../../store/saleForget.ts';
import { type Desk, log, todayOf } from '../desk.ts';
import { buyerNamed, stateOf } from './find.ts';

/** What forgetting a buyer erases. */
export interface ToForget {
  readonly buyerId: number;
  readonly buyer: string;
  readonly sales: number;
  readonly photos: number;
  readonly trackings: number;
  readonly notes: number;
  readonly waiting: number;
  /** Parcels that nobody has said the arrival of. */
  readonly onTheWay: readonly number[];
  /** Notes and headings are searched for the name; not where it is the name of something else, or too short to tell. */
  readonly searchesNotes: boolean;
}

export interface Forgotten extends Omit<ToForget, 'buyer' | 'onTheWay'> {
  /** File names of photos that could not be deleted. */
  readonly photosLeft: readonly string[];
  /** Whether the old text is gone from the database's file too; else it lingers there until it is written over. */
  readonly isCompact: boolean;
  /** The day from which the nightly backups no longer hold the buyer. */
  readonly backupsFreeOn: LocalDay;
}

/** Nightly backups that are kept. */
const backupsKept = 14;

/** What would be erased of the buyer of that name, before anything is. */
export function toForget(desk: Desk, typed: string): Result<ToForget, Refusal> {
  const id = buyerNamed(desk, typed);
  if (id === undefined) {
    const names = desk.store.sales.buyers().map(({ name }) => name);
    return fail({ kind: 'unknown', noun: 'buyer', typed, near: nearest(typed, names) });
  }
  const trace = desk.store.saleForget.traceOf(id);
  if (trace === undefined) return fail({ kind: 'unknown', noun: 'buyer', typed, near: [] });
  return forgettable(desk, id, trace);
}

/**
 * Erases what points to a buyer, for good: name, area, region, tracking, notes, photos, reasons, drafts, the name in headings and notes.
 * Sales stay with their amounts, animals and days. Photos and drafts go first, so that a run that is cut short can be run again. Undefined
 * where the buyer is forgotten already.
 */
export function forgetBuyer(desk: Desk, by: By, buyerId: number): Result<Forgotten, Refusal> | undefined {
  const trace = desk.store.saleForget.traceOf(buyerId);
  if (trace === undefined) return undefined;
  const found = forgettable(desk, buyerId, trace);
  if (!found.ok) return found;
  const { buyer: _, onTheWay: __, ...counts } = found.value;
  const photosLeft = desk.store.photos.erase(trace.photos);
  desk.store.drafts.dropMentioning([...trace.names, ...trace.areas, ...trace.trackings]);
  const inTexts = withoutNames(searched(desk, trace));
  desk.store.write(() => {
    desk.store.saleForget.erase(trace, by, desk.now(), inTexts);
    log(desk, by, 'forget', `a buyer forgotten, sales kept: ${trace.sales.length}`, () => {});
  });
  const isCompact = desk.store.saleForget.compact();
  return ok({ ...counts, photosLeft, isCompact, backupsFreeOn: addDays(todayOf(desk), backupsKept) });
}

/** A buyer who still waits for a parcel or an answer is not forgotten yet. */
function forgettable(desk: Desk, buyerId: number, trace: BuyerTrace): Result<ToForget, Refusal> {
  const sales = trace.sales.flatMap((id) => desk.store.sales.get(id) ?? []);
  const inState = (...states: ReturnType<typeof stateOf>[]): number[] =>
    sales.filter((sale) => states.includes(stateOf(desk, sale))).map(({ id }) => id);
  const open = inState('kept', 'paid');
  const claims = sales.filter(({ claim }) => claim !== null && claim.settled === null).map(({ id }) => id);
  if (open.length + claims.length > 0) return fail({ kind: 'buyer-open', buyer: trace.name, sales: open, claims });
  return ok({
    buyerId,
    buyer: trace.name,
    sales: trace.sales.length,
    photos: trace.photos.length,
    trackings: trace.trackings.length,
    notes: trace.notes,
    waiting: trace.waiting.length,
    onTheWay: inState('sent'),
    searchesNotes: searched(desk, trace).length === trace.names.length,
  });
}

/** A name shorter than this stands in too many words. */
const leastLength = 3;

/** The names that can be looked for in notes: of those that lines, goods, tubs or the partners have too, nobody knows who is meant. */
function searched(desk: Desk, { names }: BuyerTrace): string[] {
  const { tubs, goods, outlets, settings } = desk.store;
  const things = [...tubs.lines(), ...tubs.tubs(), ...goods.goods(), ...outlets.outlets(), ...settings.partners()];
  const taken = new Set(things.map(({ name }) => folded(name)));
  return names.filter((name) => name.trim().length >= leastLength && !taken.has(folded(name)));
}

/** Replaces whole names in a text, in whatever case; undefined where it holds none. */
function withoutNames(names: readonly string[]): (text: string) => string | undefined {
  const patterns = names.map((name) => {
    const words = name
      .trim()
      .split(/\s+/u)
      .map((word) => word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&'));
    return new RegExp(`(?<![\\p{L}\\p{N}])${words.join('\\s+')}(?![\\p{L}\\p{N}])`, 'giu');
  });
  return (text) => {
    const without = patterns.reduce((left, pattern) => left.replace(pattern, 'a buyer'), text);
    return without === text ? undefined : without;
  };
}
