import { middleOf } from '../colony/middle.ts';
import { addDays, dayOf, type Instant, instantAt, type LocalDay, type WallTime } from '../day.ts';
import { troubleLookDays } from '../trouble/trouble.ts';
import type { Hold, Tub } from '../tub.ts';
import type { Chore } from './chore.ts';
import { feedingDays } from './feeding.ts';
import { seasonOn } from './season.ts';
import { runOn, type Stretch } from './stretch.ts';
import { hatchDays, type YoungCounted, youngDays } from './young.ts';

/** What is known of a tub that chores hang on. */
export interface TubGrounds {
  /** Last measured temperature, °C; null: none lately. */
  readonly tempC: number | null;
  /** Last count; null: none. */
  readonly count: YoungCounted | null;
  /** The hold that it is or was under; null: none, or lifted. */
  readonly hold: Pick<Hold, 'at' | 'until'> | null;
  /** When it last was in trouble; null: not lately. */
  readonly troubleAt: Instant | null;
}

/** The facts that chores hang on. */
export interface ChoreFacts {
  readonly today: LocalDay;
  readonly zone: string;
  /** Whether the warm months are those from November to April. */
  readonly isSouth: boolean;
  readonly tubs: ReadonlyMap<number, TubGrounds>;
  /** Days on which the arrival of a parcel on its way may be reported. */
  readonly claims: readonly Stretch[];
}

/** What a chore hangs on in one place, as things stand. */
export interface Need {
  /** Days from one doing to the next; null: it is done once. */
  readonly everyDays: number | null;
  /** The days on which it is of use; null: all. */
  readonly stretch: Stretch | null;
  /** The season that it belongs to, this one or the next; null: all year. */
  readonly season: Stretch | null;
  /** Done once it was ticked since then; null: by the interval. */
  readonly since: Instant | null;
}

/** A hold that ended longer ago than this is not looked after any more, days. */
const holdLookedAfterDays = 14;

/** What a chore hangs on at the tubs that it is about; null: there is no use for it. */
export function needOf(chore: Chore, tubs: readonly Tub[], facts: ChoreFacts): Need | null {
  const season = seasonOn(chore.season, facts.today, facts.isSouth);
  const always = { everyDays: chore.everyDays, stretch: null, season, since: null };
  const grounds = tubs.flatMap(({ id }) => facts.tubs.get(id) ?? []);
  switch (chore.dependsOn) {
    case 'interval':
      return always;
    case 'warmth':
      return {
        ...always,
        everyDays: feedingDays(chore.everyDays, middle(grounds.flatMap(({ tempC }) => tempC ?? []))),
      };
    case 'young':
      return during(always, runOn(youngIn(grounds, facts), facts.today));
    case 'claim':
      return during(always, runOn(facts.claims, facts.today));
    case 'hatch':
      return once(always, hatchesIn(grounds, facts));
    case 'hold':
      return once(always, holdEnds(grounds, facts));
    case 'trouble': {
      const events = troubledDays(grounds, facts);
      if (chore.act === 'test') return once(always, events);
      const stretches = events.map(({ stretch }) => stretch);
      return during(always, runOn(stretches, facts.today));
    }
  }
}

const during = (need: Need, stretch: Stretch | null): Need | null => (stretch === null ? null : { ...need, stretch });

interface Event {
  readonly since: Instant;
  readonly stretch: Stretch;
}

/** The event that comes first. */
function once(need: Need, events: readonly Event[]): Need | null {
  const [first] = [...events].sort((a, b) => a.stretch.from.localeCompare(b.stretch.from));
  return first === undefined ? null : { ...need, everyDays: null, stretch: first.stretch, since: first.since };
}

const youngIn = (grounds: readonly TubGrounds[], { zone, today }: ChoreFacts): Stretch[] =>
  grounds.flatMap(({ count, tempC }) => (count === null ? [] : (youngDays(count, tempC, zone, today) ?? [])));

const hatchesIn = (grounds: readonly TubGrounds[], { zone, today }: ChoreFacts): Event[] =>
  grounds.flatMap(({ count, tempC }) => {
    const stretch = count === null ? null : hatchDays(count, tempC, zone);
    return count === null || stretch === null || stretch.to < today ? [] : [{ since: count.at, stretch }];
  });

const holdEnds = (grounds: readonly TubGrounds[], { today }: ChoreFacts): Event[] =>
  grounds.flatMap(({ hold }) => {
    if (hold === null || hold.until === null) return [];
    const stretch = { from: hold.until, to: addDays(hold.until, holdLookedAfterDays) };
    return stretch.to < today ? [] : [{ since: hold.at, stretch }];
  });

const midnight = '00:00' as WallTime;

/** The days after a trouble: on its own day they are at the tub anyway, and the test of that day is not the one of the next. */
const troubledDays = (grounds: readonly TubGrounds[], { zone, today }: ChoreFacts): Event[] =>
  grounds.flatMap(({ troubleAt }) => {
    if (troubleAt === null) return [];
    const from = addDays(dayOf(troubleAt, zone), 1);
    const stretch = { from, to: addDays(from, troubleLookDays - 1) };
    return stretch.to < today ? [] : [{ since: instantAt(from, midnight, zone), stretch }];
  });

const middle = (values: readonly number[]): number | null => (values.length === 0 ? null : middleOf(values));
