import { addDays, type LocalDay } from '../../day.ts';
import { dayNumber } from '../temperature/dayNumber.ts';
import { purposes, streamOf } from './chance.ts';
import type { Colony } from './colony.ts';
import { drift } from './drift.ts';
import { memberCount, rowCount } from './layout.ts';
import { ratesOf } from './rates.ts';
import { stepDay } from './stepDay.ts';
import { traits } from './traits.ts';
import type { ColonyTub } from './tub.ts';

/** A tub with what is believed of it today. */
export interface TubNow {
  readonly tub: ColonyTub;
  readonly colony: Colony;
}

/** Length of a step of a look ahead, days: as long as the boxes bear (a share of 0.64 goes on in 4 days at 24 °C). */
export const aheadDays = 4;
/** Tubs times members of a look ahead at most: what keeps a year of eighty tubs within some 20 ms. */
const mostMembersAhead = 1536;
/** More of them than this tell no more. */
const membersEnough = 64;

/** One tub on its way into the future, in fewer members. */
export interface TubAhead {
  readonly tub: ColonyTub;
  readonly numbers: Float32Array;
}

/** A line on its way into the future. */
export interface LineAhead {
  readonly day: LocalDay;
  readonly members: number;
  readonly tubs: readonly TubAhead[];
}

/** The tubs of a line as a look ahead begins: every so many members of each, the same in all, so that the sums over tubs stay what they are. */
export function lineAhead(tubs: readonly TubNow[], day: LocalDay): LineAhead {
  const members = Math.min(membersEnough, Math.floor(mostMembersAhead / Math.max(1, tubs.length)));
  const chosen = Array.from({ length: members }, (_, nth) => Math.floor(((nth + 0.5) * memberCount) / members));
  const thinned = ({ tub, colony }: TubNow): TubAhead => {
    const numbers = new Float32Array(rowCount * members);
    for (let row = 0; row < rowCount; row++) {
      chosen.forEach((member, nth) => {
        numbers[row * members + nth] = colony.numbers[row * memberCount + member] ?? 0;
      });
    }
    return { tub, numbers };
  };
  return { day, members, tubs: tubs.map(thinned) };
}

/** Takes a line a step on, in place but for the day. */
export function stepAhead({ day, members, tubs }: LineAhead): LineAhead {
  const to = addDays(day, aheadDays);
  const number = dayNumber(to);
  for (const { tub, numbers } of tubs) {
    stepDay(numbers, members, {
      rates: ratesOf(tub.temps(to), tub.saleableMm),
      netLitres: tub.netLitres,
      days: aheadDays,
      stream: streamOf(tub.id, number, purposes.ahead),
      wobble: 0,
      loggedDeaths: 0,
    });
    const of = { tubId: tub.id, day: number, purpose: purposes.driftAhead };
    drift(numbers, members, Math.abs(Math.floor(number / aheadDays)), aheadDays * traits.length, of);
  }
  return { day: to, members, tubs };
}
