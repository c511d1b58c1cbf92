import type { LocalDay } from '../../day.ts';
import { middleOf } from '../middle.ts';
import { type ReadDay, readDays, type TempPoint } from './byDay.ts';
import { dayNumber } from './dayNumber.ts';
import { pullOf, weatherDays } from './weather.ts';
import { readingSdC, type YearCurve } from './yearCurve.ts';

/** A tub's water on one day. */
export interface TubDay {
  /** Mean of the day, °C. */
  readonly tempC: number;
  /** Standard deviation of what it may have been, °C. */
  readonly sdC: number;
  /**
   * reading: read on that day; between: own readings are near enough, before, after or both, to tell a tenth or more of the weather; curve: the
   * rack's year and the tub's place in it.
   */
  readonly from: 'reading' | 'between' | 'curve';
}

/** How much warmer a tub is than its rack, °C. */
export interface TubOffset {
  readonly offsetC: number;
  readonly sdC: number;
}

/** Tubs of one rack differ by this much, top shelf to bottom shelf (standard deviation, °C; assumption). */
const placeSdC = 1.5;
/** A reading further than this from the tub's middle deviation counts only so far, °C: a misread value hardly moves the tub. */
const mostOffC = 3;
/** Readings that tell less of the weather's variance than this leave a day to the curve. */
const leastTold = 0.1;

/**
 * How much warmer a tub is than the curve of its rack, from its own readings: their mean deviation, drawn to 0 while they are few. The readings of
 * a fortnight count as one, as weather lasts; each counts up to 3 °C from their median.
 *
 *   offset = Σ mean deviation of a fortnight / (n + σ²/1.5²)        σ: the curve's weather
 */
export const tubOffset = (curve: YearCurve, readings: readonly TempPoint[]): TubOffset =>
  offsetOf(curve, readDays(readings));

function offsetOf(curve: YearCurve, reads: readonly ReadDay[]): TubOffset {
  const off = reads.map(({ day, tempC }) => tempC - curve.meanOn(day));
  const middle = middleOf(off);
  const spells = new Map<number, { sum: number; count: number }>();
  reads.forEach(({ number }, at) => {
    const held = Math.min(middle + mostOffC, Math.max(middle - mostOffC, off[at] ?? 0));
    const key = Math.floor(number / (2 * weatherDays));
    const spell = spells.get(key) ?? { sum: 0, count: 0 };
    spells.set(key, { sum: spell.sum + held, count: spell.count + 1 });
  });
  const told = [...spells.values()].reduce((sum, spell) => sum + spell.sum / spell.count, 0);
  const spread = curve.weatherSdC ** 2 + readingSdC ** 2;
  const weight = spells.size / spread + 1 / placeSdC ** 2;
  return { offsetC: told / spread / weight, sdC: 1 / Math.sqrt(weight) };
}

/**
 * Temperature of a tub by day: what was read that day; else the rack's curve, moved by the tub's own offset and by what the nearest readings
 * before and after were off it, fading with the weather's time of a week (`pullOf`).
 *
 * A reading is believed on its day; what cannot be is refused when it is entered.
 *
 * @param curve        of the rack
 * @param ownReadings  of the tub, in any order; of several of one day the median; none leaves the curve
 */
export function tubTemperature(curve: YearCurve, ownReadings: readonly TempPoint[]): (day: LocalDay) => TubDay {
  const reads = readDays(ownReadings);
  const offset = offsetOf(curve, reads);
  const expected = (day: LocalDay): number => curve.meanOn(day) + offset.offsetC;
  const off = reads.map(({ day, tempC }) => tempC - expected(day));
  return (day) => {
    const number = dayNumber(day);
    const at = firstFrom(reads, number);
    const [before, after] = [reads[at - 1], reads[at]];
    if (after?.number === number) return { tempC: after.tempC, sdC: readingSdC, from: 'reading' };
    const pull = pullOf(
      before === undefined ? Number.POSITIVE_INFINITY : number - before.number,
      after === undefined ? Number.POSITIVE_INFINITY : after.number - number,
    );
    const moved = pull.before * (off[at - 1] ?? 0) + pull.after * (off[at] ?? 0);
    // The curve's and the offset's errors fade as readings take over; theirs comes in.
    const left = (1 - pull.before - pull.after) ** 2 * (curve.doubtOn(day) ** 2 + offset.sdC ** 2);
    const read = (pull.before ** 2 + pull.after ** 2) * readingSdC ** 2;
    return {
      tempC: expected(day) + moved,
      sdC: Math.sqrt(left + pull.untold * curve.weatherSdC ** 2 + read),
      from: 1 - pull.untold >= leastTold ? 'between' : 'curve',
    };
  };
}

/** Place of the first reading on a day or later. */
function firstFrom(reads: readonly ReadDay[], number: number): number {
  let [low, high] = [0, reads.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((reads[middle]?.number ?? Number.POSITIVE_INFINITY) < number) low = middle + 1;
    else high = middle;
  }
  return low;
}
