import {
  amount,
  type Business,
  type By,
  beforeChange,
  type Change,
  type ChangeLogged,
  type ChangePlan,
  type Creep,
  creepOf,
  dayMs,
  dayOf,
  daysBetween,
  fail,
  hourMs,
  type Instant,
  isAlarm,
  ok,
  plusMs,
  type Refusal,
  type Result,
  swappedTogether,
  type TopUpLogged,
  type TopUpWater,
  type Tub,
  waterIn,
} from '../../domain/index.ts';
import { businessOf, type Desk, log } from '../desk.ts';
import { findTub } from '../find.ts';
import { whenOf } from '../when.ts';
import { changePlanOf } from './changePlan.ts';
import { standingOf } from './facts.ts';
import { shareOf } from './shares.ts';

export interface ChangeInput {
  readonly tub: string;
  readonly litres?: number | undefined;
  readonly percent?: number | undefined;
  readonly at?: Instant | undefined;
  readonly note?: string | undefined;
  /** The asker said that it really was a second change. */
  readonly second?: boolean | undefined;
  /** The asker said that it really was so much. */
  readonly sure?: boolean | undefined;
}

/** What was written of a change. */
export type ChangeNoted = Pick<ChangeLogged, 'tub' | 'litres' | 'percent' | 'at' | 'entryId'>;

/** Writes a water change; litres win over per cent, and without either it is the planned change. */
export const noteChange = (desk: Desk, by: By, input: ChangeInput): Result<ChangeNoted, Refusal> =>
  written(desk, by, input, { planOf: (tub) => changePlanOf(desk, tub), tellsTogether: false });

/**
 * @param planOf        the tub's plan before the change
 * @param tellsTogether whether the change that it comes near is looked for even where that is not asked about: it takes the plan
 */
function written(
  desk: Desk,
  by: By,
  input: ChangeInput,
  { planOf, tellsTogether }: { readonly planOf: (tub: Tub) => ChangePlan; readonly tellsTogether: boolean },
): Result<ChangeNoted & Pick<ChangeLogged, 'together'>, Refusal> {
  const business = businessOf(desk);
  const found = findTub(desk, input.tub);
  if (!found.ok) return found;
  const tub = found.value;
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  const litres = litresOf(tub, input, () => planOf(tub));
  if (!litres.ok) return litres;
  const unclear = unclearAmount(business, tub, input, litres.value);
  if (unclear !== null) return fail(unclear);
  const fraction = litres.value / tub.netLitres;
  const asks = input.second !== true;
  const clash = asks || tellsTogether ? clashOf(desk, tub, at.value, business, () => planOf(tub)) : undefined;
  const before = clash === undefined ? 0 : shareOf(desk, tub)(clash);
  const togetherPercent = Math.round(swappedTogether([fraction, before]) * 100);
  // What harms now was advised to be changed at once, whatever was changed before it was read.
  const isFirstAid = standingOf(desk, business, tub).some((value) => isAlarm(value) && value.at <= at.value);
  if (clash !== undefined && asks && !isFirstAid) {
    return fail({
      kind: 'ask-changed-already',
      tub: tub.name,
      litres: litres.value,
      percent: Math.round(fraction * 100),
      togetherPercent,
      previous: { litres: clash.litres, percent: Math.round(before * 100), at: clash.at, by: clash.by },
    });
  }
  const entryId = log(desk, by, 'change', `${tub.name} changed ${litres.value} L`, (entry) => {
    desk.store.water.addChange(entry, {
      tubId: tub.id,
      at: at.value,
      litres: litres.value,
      note: input.note?.trim() || null,
    });
  });
  return ok({
    tub,
    litres: litres.value,
    percent: Math.round(fraction * 100),
    at: at.value,
    together: clash === undefined ? null : { litres: clash.litres, at: clash.at, percent: togetherPercent },
    entryId,
  });
}

/** Writes a water change and says what it did to nitrate and what comes next. */
export function logChange(desk: Desk, by: By, input: ChangeInput): Result<ChangeLogged, Refusal> {
  let plan: ChangePlan | undefined;
  const planOf = (tub: Tub): ChangePlan => {
    plan ??= changePlanOf(desk, tub);
    return plan;
  };
  const noted = written(desk, by, input, { planOf, tellsTogether: true });
  if (!noted.ok) return noted;
  const { tub, litres, at } = noted.value;
  const business = businessOf(desk);
  const next = changePlanOf(desk, tub);
  const isNow = at > plusMs(desk.now(), -nowHours * hourMs);
  const afterMgL = isNow ? (next.nitrate?.nowMgL.median ?? null) : null;
  const sourceMgL = waterIn(business).values.nitrateMgL;
  const before = afterMgL === null ? null : beforeChange(afterMgL, litres / tub.netLitres, sourceMgL);
  return ok({
    ...noted.value,
    nitrateMgL: afterMgL === null || before === null ? null : { before, after: afterMgL },
    next,
    standing: standingOf(desk, business, tub),
  });
}

/** A change of the last hours is one of now: what nitrate was before it is known. */
const nowHours = 12;

function litresOf(tub: Tub, input: ChangeInput, planOf: () => ChangePlan): Result<number, Refusal> {
  if (input.litres === undefined && input.percent === undefined) return ok(planOf().litres);
  if (input.litres !== undefined) {
    const litres = amount('litres', input.litres);
    if (!litres.ok) return litres;
    return input.litres > tub.netLitres
      ? fail({ kind: 'more-than-the-tub', tub: tub.name, litres: input.litres, netLitres: tub.netLitres })
      : litres;
  }
  const percent = amount('percent', input.percent ?? 0);
  return percent.ok ? ok(Math.round(tub.netLitres * percent.value) / 100) : percent;
}

/** More of a tub than this is asked about, unless the policy allows it: it is a shock (common practice, no source). */
const muchFraction = 0.5;
/** Litres and per cent that are nearer than this are the same, L. */
const sameLitres = 0.5;

/** The question about an amount that says two things, or too much to be a change; null: it is clear. */
function unclearAmount(
  { changeMaxPercent }: Business,
  tub: Tub,
  { litres: typed, percent, sure }: ChangeInput,
  litres: number,
): Refusal | null {
  const about = { tub: tub.name, netLitres: tub.netLitres, litres };
  const ofPercent = percent === undefined ? undefined : (tub.netLitres * percent) / 100;
  if (typed !== undefined && percent !== undefined && Math.abs((ofPercent ?? 0) - typed) > sameLitres) {
    return { kind: 'ask-which-amount', ...about, percent };
  }
  const fraction = litres / tub.netLitres;
  const isAsked = typed !== undefined || percent !== undefined;
  return isAsked && sure !== true && fraction > Math.max(muchFraction, changeMaxPercent / 100)
    ? { kind: 'ask-much-changed', ...about, percent: Math.round(fraction * 100) }
    : null;
}

/**
 * A change of the tub, before or after `at`, that lies nearer by local days than the plan's next one: the interval, or less in a series.
 */
function clashOf(
  desk: Desk,
  tub: Tub,
  at: Instant,
  { zone, changeIntervalDays: intervalDays }: Business,
  planOf: () => ChangePlan,
): Change | undefined {
  const day = dayOf(at, zone);
  const apart = (change: Change): number => Math.abs(daysBetween(dayOf(change.at, zone), day));
  const near = desk.store.water
    .changes(tub.id, plusMs(at, -(intervalDays + 1) * dayMs))
    .filter((change) => apart(change) < intervalDays);
  if (near.length === 0) return undefined;
  const apartDays = Math.min(intervalDays, planOf().everyDays);
  return near.findLast((change) => apart(change) < apartDays);
}

/** Logs replaced evaporation. The minerals of the tub stayed; those of tap water come on top, soft water brings none. */
export function logTopUp(
  desk: Desk,
  by: By,
  input: {
    readonly tub: string;
    readonly litres: number;
    readonly water?: TopUpWater | undefined;
    readonly at?: Instant | undefined;
  },
): Result<TopUpLogged, Refusal> {
  const business = businessOf(desk);
  const found = findTub(desk, input.tub);
  if (!found.ok) return found;
  const tub = found.value;
  const litres = amount('litres', input.litres);
  if (!litres.ok) return litres;
  if (input.litres > tub.netLitres) {
    return fail({ kind: 'more-than-the-tub', tub: tub.name, litres: input.litres, netLitres: tub.netLitres });
  }
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  const water = input.water ?? 'tap';
  const entryId = log(desk, by, 'topup', `${tub.name} topped up ${input.litres} L ${water}`, (entry) => {
    desk.store.water.addTopUp(entry, { tubId: tub.id, at: at.value, litres: input.litres, water });
  });
  const last = desk.store.water.latestWith(tub.id, 'tdsMgL');
  const source = business.sourceTdsMgL;
  const addsMgL = water === 'soft' ? 0 : source === null ? null : (source * input.litres) / tub.netLitres;
  const tdsMgL = { last: last?.tdsMgL ?? null, adds: addsMgL };
  return ok({
    tub,
    litres: input.litres,
    water,
    at: at.value,
    tdsMgL,
    creep: creepOfTub(desk, tub),
    sourceTdsMgL: waterIn(business).values.tdsMgL,
    entryId,
  });
}

/** What the top-ups and changes of a tub's last 60 days come to; null: its log is too young to tell. */
export function creepOfTub({ store: { water }, now }: Desk, tub: Tub): Creep | null {
  const since = plusMs(now(), -creepDays * dayMs);
  const log = { changes: water.changes(tub.id, since), topUps: water.topUps(tub.id, since) };
  return creepOf(tub.netLitres, log, tub.addedAt, now());
}

const creepDays = 60;
