import {
  type BagKind,
  celsiusOf,
  fail,
  mendings,
  ok,
  type Packed,
  type PackRefusal,
  planBags,
  type Result,
  type Untold,
} from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { linesOf } from '../find.ts';
import { bagWaterOf, hoursOnTheWay } from './bagWater.ts';

export interface PackInput {
  readonly number: number;
  readonly lengthMm?: number | undefined;
  readonly hours?: number | undefined;
  /** Air on the way, on the scale of the business's units. */
  readonly temp?: number | undefined;
  readonly bag?: BagKind | undefined;
}

/** What can be asked. Bounds are ours; the hours go past what is reckoned, so that the longest transit has an answer. */
const bounds = {
  number: { min: 1, max: 200 },
  'length-mm': { min: 5, max: 40 },
  hours: { min: 1, max: 400 },
  temp: { min: -30, max: 45 },
} as const;

/** Length of animals while there is no line that says from when on they are saleable, mm. Common practice, no source. */
const usualLengthMm = 15;

/**
 * The bags for animals of no line in particular. What was not said: the longest saleable length of the lines, the hours of transit, slack and
 * a day of delay, air as warm as the tubs. Temperature, pH and KH of the water are the highest in the tubs.
 */
export function planPack(desk: Desk, input: PackInput): Result<Packed, PackRefusal> {
  const business = businessOf(desk);
  const inFahrenheit = business.units === 'us';
  const { number, lengthMm, hours, temp, bag = 'ordinary' } = input;
  const airC = temp === undefined ? undefined : inFahrenheit ? celsiusOf(temp) : temp;
  const refused =
    outside('number', number, number) ??
    outside('length-mm', lengthMm, lengthMm) ??
    outside('hours', hours, hours) ??
    outside('temp', temp, airC);
  if (refused !== null) return fail({ ...refused, mended: mendedOf(refused, inFahrenheit) });
  const water = bagWaterOf(desk, business, null);
  const untold: readonly (readonly [Untold, number | undefined])[] = [
    ['length', lengthMm],
    ['hours', hours],
    ['temperature', temp],
  ];
  const slips = temp === undefined || !inFahrenheit ? [] : mendings('tempC', temp, inFahrenheit);
  return ok({
    plan: planBags({
      kind: bag,
      animals: number,
      lengthMm: lengthMm ?? longestSaleableMm(desk),
      hours: hours ?? hoursOnTheWay(business),
      ph: water.ph,
      khDkh: water.khDkh,
      way: { startC: water.tempC, warmC: airC ?? water.tempC, coldC: airC ?? water.tempC },
    }),
    untold: untold.flatMap(([what, given]) => (given === undefined ? [what] : [])),
    measured: water.measured,
    slip: slips.find(({ how }) => how === 'celsius') ?? null,
  });
}

function longestSaleableMm(desk: Desk): number {
  const lengthsMm = linesOf(desk).map(({ saleableMm }) => saleableMm);
  return lengthsMm.length === 0 ? usualLengthMm : Math.max(...lengthsMm);
}

type OutOfBounds = Omit<PackRefusal, 'mended'>;

function outside(name: PackRefusal['name'], typed: number | undefined, value: number | undefined): OutOfBounds | null {
  if (typed === undefined || value === undefined) return null;
  const { min, max } = bounds[name];
  const whole = name !== 'number' || Number.isInteger(value);
  return value >= min && value <= max && whole ? null : { kind: 'impossible-pack', name, typed, min, max };
}

/** What an amount that cannot be was probably meant to be. */
function mendedOf({ name, typed, min, max }: OutOfBounds, inFahrenheit: boolean): PackRefusal['mended'] {
  if (name === 'temp') return mendings('tempC', typed, inFahrenheit)[0] ?? null;
  if (name !== 'length-mm') return null;
  const guesses = [
    { value: Math.round(typed * 10), how: 'centimetres' as const },
    { value: Math.round(typed * 25.4), how: 'inches' as const },
    { value: Math.round(typed) / 10, how: 'decimal' as const },
  ];
  const likely = inFahrenheit ? [1, 0, 2] : [0, 1, 2];
  const inOrder = likely.flatMap((place) => guesses[place] ?? []);
  return inOrder.find(({ value }) => value >= min && value <= max) ?? null;
}
