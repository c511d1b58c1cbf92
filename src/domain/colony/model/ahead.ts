import { addDays, daysBetween, type LocalDay } from '../../day.ts';
import { dayNumber } from '../temperature/dayNumber.ts';
import { purposes, streamOf } from './chance.ts';
import { type Colony, saleableOf } from './colony.ts';
import { drift } from './drift.ts';
import { memberCount, rowCount } from './layout.ts';
import { quantilesOf } from './range.ts';
import { type DailyRates, ratesOf } from './rates.ts';
import { type LineAhead, sellAhead, sumAhead, type TubAhead } from './sellAhead.ts';
import { stepDay } from './stepDay.ts';
import { traits } from './traits.ts';
import type { ColonyTub } from './tub.ts';

/** A tub with what is believed of it today. */
export interface TubNow {
  readonly tub: ColonyTub;
  readonly colony: Colony;
}

/** What is sold of a line from now on. */
export interface SalesAhead {
  /** Promised already, extras included, animals: gone first. */
  readonly promised: number;
  /** Breeders held back per tub. */
  readonly holdBack: number;
  /** Whether anything is sent in the days from this one on: not in a closed window. */
  readonly isOpen: (day: LocalDay) => boolean;
}

/** Length of a step, days: as long as the boxes bear (at 24 °C two of three animals go on in it). */
export const aheadDays = 4;
/** Every so many steps a trait drifts. */
const driftEvery = 2;
/** Tubs that are looked ahead one by one, at most; members of each, and members of them all together. */
const [mostTubs, membersEnough, mostMembers] = [24, 48, 768];
/** Steps of all members together, so that going through a year takes some 4 ms, but no fewer members of each tub than tell a tenth. */
const [mostSteps, leastMembers] = [36_000, 16];

/** A line's future, ready to be gone through with one plan or another. */
export interface Outlook {
  readonly from: LocalDay;
  readonly members: number;
  readonly tubs: readonly (TubAhead & { readonly tub: ColonyTub; readonly rates: readonly DailyRates[] })[];
  /** The days that its steps end on. */
  readonly days: readonly LocalDay[];
}

/**
 * Opens the future of a line: every so many members of each tub, the same in all, so that sums over tubs stay as uncertain as they are. Of more than
 * 24 tubs, 24 stand for those that are about as full.
 *
 * @param tubs   one at least, each with its colony on the day `from`
 * @param enough members that are enough, at most `memberCount`
 */
export function outlook(
  tubs: readonly TubNow[],
  from: LocalDay,
  until: LocalDay,
  enough: number = membersEnough,
): Outlook {
  const standing = standingFor(tubs);
  const steps = Math.max(0, Math.floor(daysBetween(from, until) / aheadDays));
  const affordable = Math.max(leastMembers, Math.floor(mostSteps / Math.max(1, steps * standing.length)));
  const members = Math.min(enough, affordable, Math.floor(mostMembers / Math.max(1, standing.length)));
  const days = Array.from({ length: steps }, (_, nth) => addDays(from, (nth + 1) * aheadDays));
  return {
    from,
    members,
    days,
    tubs: standing.map(({ now: { tub, colony }, weight }) => ({
      tub,
      weight,
      numbers: thinned(colony.numbers, members),
      rates: days.map((day) => ratesOf(tub.temps(day), tub.saleableMm)),
    })),
  };
}

function standingFor(tubs: readonly TubNow[]): { now: TubNow; weight: number }[] {
  if (tubs.length <= mostTubs) return tubs.map((now) => ({ now, weight: 1 }));
  const byFill = tubs
    .map((now) => ({ now, fill: (quantilesOf(saleableOf(now.colony), [0.5])[0] ?? 0) / now.tub.netLitres }))
    .sort((a, b) => a.fill - b.fill || a.now.tub.id - b.now.tub.id);
  return Array.from({ length: mostTubs }, (_, nth) => {
    const [first, end] = [nth, nth + 1].map((edge) => Math.round((edge * tubs.length) / mostTubs)) as [number, number];
    return byFill.slice(first, end);
  }).flatMap((group) => {
    const middle = group[Math.floor(group.length / 2)];
    return middle === undefined ? [] : [{ now: middle.now, weight: group.length }];
  });
}

function thinned(numbers: Float32Array, members: number): Float32Array {
  const found = new Float32Array(rowCount * members);
  for (let row = 0; row < rowCount; row++) {
    for (let nth = 0; nth < members; nth++) {
      const member = Math.floor(((nth + 0.5) * memberCount) / members);
      found[row * members + nth] = numbers[row * memberCount + member] ?? 0;
    }
  }
  return found;
}

/**
 * Goes through a future, calling `tell` for today, when what is promised has gone, and after each step.
 *
 * @param weekly sold a week in each member, animals with extras
 * @param tell   its line is reused: what is to be kept must be copied. `missing`: what could not be sent so far, by member
 */
export function goAhead(
  { from, members, tubs, days }: Outlook,
  weekly: Float64Array,
  { promised, holdBack, isOpen }: SalesAhead,
  tell: (day: LocalDay, line: LineAhead, missing: Float64Array) => void,
): void {
  const going = tubs.map((of) => ({ ...of, numbers: of.numbers.slice() }));
  const line: LineAhead = { members, tubs: going };
  const missing = new Float64Array(members);
  sellAhead(line, new Float64Array(members).fill(promised), holdBack, missing);
  tell(from, line, missing);
  const perStep = weekly.map((number) => (number * aheadDays) / 7);
  days.forEach((day, step) => {
    const number = dayNumber(day);
    for (const { tub, numbers, rates } of going) {
      const ofStep = rates[step];
      if (ofStep === undefined) continue;
      stepDay(numbers, members, {
        rates: ofStep,
        netLitres: tub.netLitres,
        days: aheadDays,
        stream: streamOf(tub.id, number, purposes.ahead),
        wobble: 0,
        loggedDeaths: 0,
      });
      if (step % driftEvery === 0) {
        const sinceTurn = aheadDays * driftEvery * traits.length;
        drift(numbers, members, step / driftEvery, sinceTurn, {
          tubId: tub.id,
          day: number,
          purpose: purposes.driftAhead,
        });
      }
    }
    if (isOpen(addDays(day, -aheadDays))) sellAhead(line, perStep, holdBack, missing);
    tell(day, line, missing);
  });
}

/**
 * Saleable animals of a tub on a day ahead if nothing is taken from it, by member as in `saleableOf`; to the step of 4 days that ends on the day or
 * before it.
 */
export function colonyAhead(now: TubNow, from: LocalDay, on: LocalDay): Float32Array {
  const future = outlook([now], from, on, memberCount);
  const nothing = { promised: 0, holdBack: 0, isOpen: () => false };
  let saleable = saleableOf(now.colony);
  goAhead(future, new Float64Array(memberCount), nothing, (_day, line) => {
    saleable = Float32Array.from(sumAhead(line, (animals) => animals));
  });
  return saleable;
}
