import {
  afterChange,
  amount,
  type By,
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
  ok,
  plusMs,
  type Refusal,
  type Result,
  swappedTogether,
  type TopUpLogged,
  type TopUpWater,
  type Tub,
} from '../../domain/index.ts';
import { businessOf, type Desk, log } from '../desk.ts';
import { findTub } from '../find.ts';
import { whenOf } from '../when.ts';
import { changePlanOf, rackOf } from './changePlan.ts';
import { waterIn } from './waterIn.ts';

export interface ChangeInput {
  readonly tub: string;
  readonly litres?: number | undefined;
  readonly percent?: number | undefined;
  readonly at?: Instant | undefined;
  readonly note?: string | undefined;
  /** The asker said that it really was a second change. */
  readonly second?: boolean | undefined;
}

/** Logs a water change; litres win over per cent, and without either it is the planned change. */
export function logChange(desk: Desk, by: By, input: ChangeInput): Result<ChangeLogged, Refusal> {
  const business = businessOf(desk);
  const found = findTub(desk, input.tub);
  if (!found.ok) return found;
  const tub = found.value;
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  const plan = changePlanOf(desk, tub, rackOf(desk));
  const litres = litresOf(tub, input, plan);
  if (!litres.ok) return litres;
  const fraction = litres.value / tub.netLitres;
  const apartDays = Math.min(business.changeIntervalDays, plan.everyDays);
  const clash = input.second === true ? undefined : changeNear(desk, tub, at.value, business.zone, apartDays);
  if (clash !== undefined) {
    const before = clash.litres / tub.netLitres;
    return fail({
      kind: 'ask-changed-already',
      tub: tub.name,
      litres: litres.value,
      percent: Math.round(fraction * 100),
      togetherPercent: Math.round(swappedTogether([fraction, before]) * 100),
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
  const isNow = at.value > plusMs(desk.now(), -nowHours * hourMs);
  const before = isNow ? (plan.nitrate?.nowMgL.median ?? null) : null;
  const sourceMgL = waterIn(business).values.nitrateMgL;
  return ok({
    tub,
    litres: litres.value,
    percent: Math.round(fraction * 100),
    at: at.value,
    nitrateMgL: before === null ? null : { before, after: afterChange(before, fraction, sourceMgL) },
    next: changePlanOf(desk, tub, rackOf(desk)),
    entryId,
  });
}

/** A change of the last hours is one of now: what nitrate was before it is known. */
const nowHours = 12;

function litresOf(tub: Tub, input: ChangeInput, plan: ChangePlan): Result<number, Refusal> {
  if (input.litres === undefined && input.percent === undefined) return ok(plan.litres);
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

/** A change of the tub less than so many days before or after `at`, by local days. */
function changeNear(desk: Desk, tub: Tub, at: Instant, zone: string, apartDays: number): Change | undefined {
  const day = dayOf(at, zone);
  return desk.store.water
    .changes(tub.id, plusMs(at, -(apartDays + 1) * dayMs))
    .findLast((change) => Math.abs(daysBetween(dayOf(change.at, zone), day)) < apartDays);
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
