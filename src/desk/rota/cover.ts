import {
  type Absence,
  addDays,
  allAway,
  dayMs,
  daysBetween,
  type LocalDay,
  offSaleOn,
  plusMs,
  type Tub,
} from '../../domain/index.ts';
import { type Desk, todayOf } from '../desk.ts';
import { dispatchDaysAhead } from '../dispatch/judge.ts';
import { tubsInUse } from '../find.ts';

/** A tub as whoever looks after it needs to know it. */
export interface CoverTub {
  readonly name: string;
  readonly rack: string;
  /** What evaporates by the top-ups of the last eight weeks, L a week; null: too few were logged. */
  readonly topUpLWeek: number | null;
  readonly isHeld: boolean;
}

/** What the couple does before all are away, and what whoever covers for them does. */
export interface Cover {
  readonly absence: Absence;
  /** Names of the partners, to be called. */
  readonly partners: readonly string[];
  readonly tubs: readonly CoverTub[];
  /** By when new leaves go in, the last water change, the last parcel; null: that day is past, or there is none. */
  readonly leavesBy: LocalDay | null;
  readonly changeOn: LocalDay | null;
  readonly lastDispatch: LocalDay | null;
}

/** Leaves feed while nobody does; they go in before, so that they have softened (common practice, no source). */
const leavesDaysAhead = 7;
/** A usual change the day before, so that none falls due meanwhile (common practice, no source). */
const changeDaysAhead = 1;
/** What evaporates is told by the top-ups of so many weeks, three at least. */
const topUpWeeks = 8;
const fewestTopUps = 3;
/** An absence further off is not spoken of yet, days. */
const spokenOfDays = 14;

/** The cover for the days on which all partners are away, now or to come; null: there are none. */
export function cover(desk: Desk): Cover | null {
  const today = todayOf(desk);
  const partners = desk.store.settings.partners();
  const absence = allAway(partners);
  if (absence === null || (absence.to !== null && absence.to < today)) return null;
  const ahead = (days: number): LocalDay | null => {
    const on = absence.from === null ? today : addDays(absence.from, -days);
    return absence.from === null || on < today ? null : on;
  };
  return {
    absence,
    partners: partners.map(({ name }) => name),
    tubs: tubsInUse(desk).map((tub) => coverTub(desk, tub, today)),
    leavesBy: ahead(leavesDaysAhead),
    changeOn: ahead(changeDaysAhead),
    lastDispatch: lastDispatchBefore(desk, today, absence),
  };
}

/** The same where it is near enough to be spoken of in a post. */
export function coverSoon(desk: Desk): Cover | null {
  const found = cover(desk);
  const from = found?.absence.from ?? null;
  return found === null || (from !== null && daysBetween(todayOf(desk), from) > spokenOfDays) ? null : found;
}

function coverTub(desk: Desk, { id, name, rack }: Tub, today: LocalDay): CoverTub {
  const topUps = desk.store.water.topUps(id, plusMs(desk.now(), -topUpWeeks * 7 * dayMs));
  const litres = topUps.reduce((sum, topUp) => sum + topUp.litres, 0);
  return {
    name,
    rack,
    topUpLWeek: topUps.length < fewestTopUps ? null : litres / topUpWeeks,
    isHeld: offSaleOn(desk.store.animals.latestHold(id), today) !== null,
  };
}

/** The last good dispatch day before the absence, which the judgement of days knows of; null: none is left. */
function lastDispatchBefore(desk: Desk, today: LocalDay, { from }: Absence): LocalDay | null {
  if (from === null || from <= today) return null;
  return dispatchDaysAhead(desk, daysBetween(today, from)).at(-1)?.day ?? null;
}
