import {
  type Business,
  type Change,
  dayOf,
  daysBetween,
  type Finding,
  type JudgedValue,
  type Reading,
  type StandingValue,
  standingValues,
  type Tub,
  type WaterValueName,
  type WaterVerdict,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { verdictOn } from './verdict.ts';
import { waterVersion } from './version.ts';

/** What was logged last of a tub's water. */
export interface WaterFacts {
  readonly last: { readonly reading: Reading; readonly verdict: WaterVerdict } | null;
  readonly lastChange: Change | null;
  /** The newest reading of each value. */
  readonly newest: Readonly<Partial<Record<WaterValueName, Reading>>>;
  /** What was judged of the newest reading of each value. */
  readonly judged: readonly Omit<JudgedValue, 'daysOld'>[];
}

const nameOf: Readonly<Record<Finding['of'], WaterValueName>> = {
  ammonia: 'ammoniaMgL',
  nitrite: 'nitriteMgL',
  nitrate: 'nitrateMgL',
  temperature: 'tempC',
  ph: 'ph',
  gh: 'ghDgh',
  kh: 'khDkh',
  tds: 'tdsMgL',
};
const names = Object.values(nameOf);

interface Kept {
  readonly version: string;
  readonly facts: WaterFacts;
}

/** Reading and judging takes a dozen questions a tub, so the answers are kept until the tub's water or the settings change. */
const kept = new WeakMap<Desk['store'], Map<number, Kept>>();

/** What was logged last of a tub's water, and how it was judged. */
export function waterFacts(desk: Desk, business: Business, tub: Tub): WaterFacts {
  const mine = kept.get(desk.store) ?? new Map<number, Kept>();
  kept.set(desk.store, mine);
  const { nitrateLimitMgL, sourceNitrateMgL, targetNitrateMgL, altitudeM } = business;
  const version = waterVersion(desk, tub, [nitrateLimitMgL, sourceNitrateMgL, targetNitrateMgL, altitudeM]);
  const before = mine.get(tub.id);
  if (before?.version === version) return before.facts;
  const facts = freshFacts(desk, business, tub);
  mine.set(tub.id, { version, facts });
  return facts;
}

function freshFacts(desk: Desk, business: Business, tub: Tub): WaterFacts {
  const { water } = desk.store;
  const verdicts = new Map<number, WaterVerdict>();
  const judge = (reading: Reading): WaterVerdict => {
    const verdict = verdicts.get(reading.id) ?? verdictOn(desk, business, tub, reading);
    verdicts.set(reading.id, verdict);
    return verdict;
  };
  const reading = water.latestReading(tub.id);
  const newest: Partial<Record<WaterValueName, Reading>> = {};
  for (const name of names) {
    const found = reading !== undefined && reading[name] !== null ? reading : water.latestWith(tub.id, name);
    if (found !== undefined) newest[name] = found;
  }
  const lastChange = water.latestChange(tub.id) ?? null;
  // Of the same moment, what was logged later came later.
  const isChangedSince = ({ at, entryId }: Reading): boolean =>
    lastChange !== null && (lastChange.at > at || (lastChange.at === at && lastChange.entryId > entryId));
  return {
    last: reading === undefined ? null : { reading, verdict: judge(reading) },
    lastChange,
    newest,
    judged: Object.entries(newest).flatMap(([name, read]) =>
      judge(read)
        .findings.filter(({ of }) => nameOf[of] === name)
        .map((finding) => ({ finding, at: read.at, isChanged: isChangedSince(read) })),
    ),
  };
}

/** What is not fine in a tub's water now, the worst first. */
export function standingOf(desk: Desk, business: Business, tub: Tub): StandingValue[] {
  const today = dayOf(desk.now(), business.zone);
  const { judged } = waterFacts(desk, business, tub);
  return standingValues(
    judged.map((value) => ({ ...value, daysOld: daysBetween(dayOf(value.at, business.zone), today) })),
  );
}
