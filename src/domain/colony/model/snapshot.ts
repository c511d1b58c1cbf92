import { addDays, type LocalDay, parseDay } from '../../day.ts';
import { dayNumber } from '../temperature/dayNumber.ts';
import type { Colony } from './colony.ts';
import { stateLength } from './layout.ts';
import type { ColonyTub } from './tub.ts';

/** Raised with every change of the model that makes another replay: older snapshots then read as none. */
const version = 1;

const mark = 0x424d;
const dayLength = 10;
const headNumbers = 7;
/** mark, version: 2 bytes each; tub: 4; water and length: 4 each; the day; the figures; the state. */
const [figuresAt, numbersAt] = [16 + dayLength, 16 + dayLength + 8 * headNumbers];
const byteLength = numbersAt + 4 * stateLength;

/** A snapshot as bytes, little-endian: all that a replay needs to go on, bit for bit. */
export function encodeColony(colony: Colony, { netLitres, saleableMm }: ColonyTub): Uint8Array {
  const bytes = new Uint8Array(byteLength);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, mark, true);
  view.setUint16(2, version, true);
  view.setUint32(4, colony.tubId, true);
  view.setFloat32(8, netLitres, true);
  view.setFloat32(12, saleableMm, true);
  for (let nth = 0; nth < dayLength; nth++) bytes[16 + nth] = colony.day.charCodeAt(nth);
  const { model, dish, glance, loggedDeaths } = colony;
  const figures = [model.squares, model.weight, dish.squares, dish.weight, glance.squares, glance.weight, loggedDeaths];
  figures.forEach((figure, nth) => {
    view.setFloat64(figuresAt + 8 * nth, figure, true);
  });
  colony.numbers.forEach((number, nth) => {
    view.setFloat32(numbersAt + 4 * nth, number, true);
  });
  return bytes;
}

/**
 * A snapshot from its bytes. Null where it is none of this version, or of another tub or one whose water or line's length was changed since: it is a
 * cache, and the replay begins further back. Temperatures that became known for days before it are not noticed; whoever keeps snapshots drops
 * those from the day of a new or void reading on.
 */
export function decodeColony(bytes: Uint8Array, tub: ColonyTub): Colony | null {
  if (bytes.byteLength !== byteLength) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const isOurs =
    view.getUint16(0, true) === mark &&
    view.getUint16(2, true) === version &&
    view.getUint32(4, true) === tub.id &&
    view.getFloat32(8, true) === Math.fround(tub.netLitres) &&
    view.getFloat32(12, true) === Math.fround(tub.saleableMm);
  const day = parseDay(String.fromCharCode(...bytes.subarray(16, 16 + dayLength)));
  if (!isOurs || day === undefined) return null;
  const figure = (nth: number): number => view.getFloat64(figuresAt + 8 * nth, true);
  const numbers = Float32Array.from({ length: stateLength }, (_, nth) => view.getFloat32(numbersAt + 4 * nth, true));
  return {
    tubId: tub.id,
    day,
    numbers,
    model: { squares: figure(0), weight: figure(1) },
    dish: { squares: figure(2), weight: figure(3) },
    glance: { squares: figure(4), weight: figure(5) },
    loggedDeaths: figure(6),
  };
}

/** Snapshots stand this many days apart up to so many days back; further back the last line holds. */
const keeping = [
  { upToDays: 3, everyDays: 1 },
  { upToDays: 70, everyDays: 7 },
  { upToDays: 730, everyDays: 28 },
  { upToDays: Number.POSITIVE_INFINITY, everyDays: 364 },
] as const;

/** The days of the last ten weeks, a week apart, of which snapshots are kept, oldest first; today is none of them. */
export function keptWeeks(today: LocalDay): LocalDay[] {
  const number = dayNumber(today);
  const sinceLast = number % 7 === 0 ? 7 : number % 7;
  return Array.from({ length: 10 }, (_, week) => addDays(today, -sinceLast - 7 * week))
    .filter((day) => isKept(day, today))
    .reverse();
}

/**
 * Whether the snapshot of a day is worth keeping on a later day: every day at first, then ever fewer, so that ten years of a tub fit in some 45,
 * and no fact is further from a snapshot before it than a year. The days that are kept later were kept all along.
 */
export function isKept(day: LocalDay, today: LocalDay): boolean {
  const [number, age] = [dayNumber(day), dayNumber(today) - dayNumber(day)];
  const every = keeping.find(({ upToDays }) => age <= upToDays)?.everyDays ?? 1;
  return age >= 0 && number % every === 0;
}
