import {
  addDays,
  type ChangePlan,
  type Creep,
  dayOf,
  daysBetween,
  fail,
  type Instant,
  isOverLimit,
  type MovingValue,
  type OddReading,
  ok,
  type Reading,
  type Refusal,
  type Result,
  type StandingValue,
  type Tub,
  type TubStock,
  type WaterState,
  type WaterVerdict,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { findLine, findTub, tubsInUse } from '../find.ts';
import { changePlanOf, type Rack, rackOf } from '../water/changePlan.ts';
import { creepOfTub } from '../water/changes.ts';
import { standingOf, waterFacts } from '../water/facts.ts';
import { oddReading } from '../water/odd.ts';
import { type WaterPast, waterPast } from '../water/past.ts';
import { movingValues } from '../water/trends.ts';
import { tubStock } from './stock.ts';

/** How a tub stands: its last reading with a verdict, its next change, its animals. */
export interface TubState {
  readonly tub: Tub;
  readonly last: { readonly reading: Reading; readonly verdict: WaterVerdict; readonly daysOld: number } | null;
  readonly lastChangedAt: Instant | null;
  readonly plan: ChangePlan;
  /** What is not fine by the newest reading of each value, nitrate apart; the worst first. */
  readonly standing: readonly StandingValue[];
  /** The worst of these, and of nitrate as it stands by its estimate. */
  readonly waterState: WaterState;
  /** Whether its newest nitrate reading does not follow from what was logged before. */
  readonly isOdd: boolean;
  readonly stock: TubStock;
  /** Days that the change is late; 0 when it is not, or when none was logged yet and the tub's first interval still runs. */
  readonly lateDays: number;
}

/**
 * How a tub stands now.
 * @param rack what the plans of several tubs share, where it is read already
 */
export function tubState(desk: Desk, tub: Tub, rack: Rack = rackOf(desk)): TubState {
  const { business } = rack;
  const today = dayOf(desk.now(), business.zone);
  const { last, lastChange } = waterFacts(desk, business, tub);
  const plan = changePlanOf(desk, tub, rack);
  const standing = standingOf(desk, business, tub);
  const changedAt = lastChange?.at ?? null;
  const firstEnd = addDays(dayOf(tub.addedAt, business.zone), business.changeIntervalDays);
  const lateFrom = changedAt === null && plan.dueOn < firstEnd ? firstEnd : plan.dueOn;
  return {
    tub,
    last: last === null ? null : { ...last, daysOld: daysBetween(dayOf(last.reading.at, business.zone), today) },
    lastChangedAt: changedAt,
    plan,
    standing,
    waterState: waterStateOf(standing, plan),
    isOdd: rack.nitrate.isOdd(tub),
    stock: tubStock(desk, business, tub),
    lateDays: Math.max(0, daysBetween(lateFrom, today)),
  };
}

function waterStateOf(standing: readonly StandingValue[], { nitrate }: ChangePlan): WaterState {
  const isOver = nitrate !== null && isOverLimit(nitrate);
  return standing[0]?.state ?? (isOver ? 'watch' : 'fine');
}

/** How far back the water of a tub that is shown alone goes. */
const pastDays = 90;

/** What a tub that is shown alone tells beside its state. */
export interface TubShown extends TubState {
  readonly past: WaterPast;
  /** The newest nitrate reading, where it does not follow from what was logged before. */
  readonly odd: OddReading | null;
  readonly trends: readonly MovingValue[];
  readonly creep: Creep | null;
}

/** How the tub that was typed stands, and its water of the last 90 days. */
export function showTub(desk: Desk, typed: string): Result<TubShown, Refusal> {
  const found = findTub(desk, typed);
  if (!found.ok) return found;
  const tub = found.value;
  const rack = rackOf(desk);
  const nitrateRead = desk.store.water.latestWith(tub.id, 'nitrateMgL');
  return ok({
    ...tubState(desk, tub, rack),
    past: waterPast(desk, tub, pastDays),
    odd: nitrateRead === undefined ? null : oddReading(desk, rack, tub, nitrateRead),
    trends: movingValues(desk, tub),
    creep: creepOfTub(desk, tub),
  });
}

const stateRank = { act: 0, watch: 1, fine: 2 } as const;

/** Tubs in use of a rack or a line, or all of them, worst first: water, then late changes, then rack order. */
export function listTubs(
  desk: Desk,
  filter: { readonly rack?: string | undefined; readonly line?: string | undefined },
): Result<TubState[], Refusal> {
  const line = filter.line === undefined ? null : findLine(desk, filter.line);
  if (line !== null && !line.ok) return line;
  const rack = filter.rack?.trim().toLowerCase();
  const inUse = tubsInUse(desk);
  const racks = racksAmong(inUse);
  if (rack !== undefined && !racks.some((name) => name.toLowerCase() === rack)) {
    return fail({ kind: 'unknown', noun: 'rack', typed: filter.rack ?? '', near: racks.slice(0, 6) });
  }
  const tubs = inUse.filter(
    (tub) => (line === null || tub.lineId === line.value.id) && (rack === undefined || tub.rack.toLowerCase() === rack),
  );
  const shared = rackOf(desk, inUse);
  return ok(tubs.map((tub) => tubState(desk, tub, shared)).sort(worstFirst));
}

const worstFirst = (a: TubState, b: TubState): number =>
  stateRank[a.waterState] - stateRank[b.waterState] || b.lateDays - a.lateDays;

/** Tubs in use whose water is not fine, what harms today first. */
export const tubsToWatch = (desk: Desk, rack: Rack = rackOf(desk)): TubState[] =>
  rack.inUse
    .map((tub) => tubState(desk, tub, rack))
    .filter(({ waterState }) => waterState !== 'fine')
    .sort(worstFirst);

const racksAmong = (tubs: readonly Tub[]): string[] => [...new Set(tubs.map(({ rack }) => rack))];

/** Racks in use, in order. */
export const racksOf = (desk: Desk): string[] => racksAmong(tubsInUse(desk));
