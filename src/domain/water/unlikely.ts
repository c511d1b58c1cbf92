import type { WaterValueName } from '../tub.ts';
import { tdsOfEc, usualTdsFactor } from './minerals.ts';
import { dilutions } from './nitrate/interval.ts';
import { canBe, celsiusOf, hardnessOfPpm, type Mended, usual } from './possible.ts';

const tenths = (value: number): number => Math.round(value * 10) / 10;

/** How far from the last value is odd, and how near a mended one must come to it to be worth asking. Ours, generous. */
interface Reach {
  readonly isFar: (value: number, last: number) => boolean;
  readonly isNear: (value: number, last: number) => boolean;
  readonly slips: (value: number) => readonly Mended[];
}

const decimals = (value: number): Mended[] => [
  { value: tenths(value * 10), how: 'decimal' },
  { value: Math.round(value * 10) / 100, how: 'decimal' },
];

/** TDS is typed in g/L or mS/cm too. */
const thousands = (value: number): Mended[] => [
  { value: tenths(value * 100), how: 'decimal' },
  { value: tenths(value * 1000), how: 'decimal' },
];

const ratio = (value: number, last: number): number => Math.max(value, last) / Math.max(0.01, Math.min(value, last));

const hardness: Reach = {
  isFar: (value, last) => ratio(value, last) >= 2.5 && Math.abs(value - last) >= 3,
  isNear: (value, last) => Math.abs(value - last) <= Math.max(2, 0.25 * last),
  slips: (value) => [...decimals(value), { value: hardnessOfPpm(value), how: 'ppm' }],
};

const reaches: Partial<Readonly<Record<WaterValueName, Reach>>> = {
  tempC: {
    isFar: (value, last) => Math.abs(value - last) >= 8,
    isNear: (value, last) => Math.abs(value - last) <= 3,
    slips: (value) => [...decimals(value), { value: tenths(celsiusOf(value)), how: 'fahrenheit' }],
  },
  ghDgh: hardness,
  khDkh: hardness,
  tdsMgL: {
    isFar: (value, last) => ratio(value, last) >= 1.4,
    isNear: (value, last) => Math.abs(value - last) <= 0.1 * last,
    slips: (value) => [
      ...decimals(value),
      ...thousands(value),
      { value: Math.round(tdsOfEc(value, usualTdsFactor)), how: 'conductivity' },
    ],
  },
};

/** Values of which a first reading that is hardly ever seen is asked about. */
const askedAlone = ['tempC', 'tdsMgL'] as const satisfies readonly WaterValueName[];
type AskedAlone = (typeof askedAlone)[number];
const isAskedAlone = (name: WaterValueName): name is AskedAlone => (askedAlone as readonly string[]).includes(name);

/**
 * What a value that can be, but that tubs hardly ever show, probably was meant to be; the likeliest first. For a tub of which nothing is
 * known yet.
 * @param value in metric units
 */
export function slipsAlone(name: WaterValueName, value: number): Mended[] {
  if (!isAskedAlone(name)) return [];
  const isUsual = (one: number): boolean => one >= usual[name].min && one <= usual[name].max;
  if (value <= 0 || isUsual(value)) return [];
  const slips = name === 'tempC' ? decimals(value) : [...decimals(value), ...thousands(value)];
  return slips.filter((slip) => isUsual(slip.value)).slice(0, 1);
}

/**
 * A nitrate beyond the kit's top step with its decimal point lost: a tenth of it, where the kit shows that and nobody diluted the sample.
 * @param last the tub's last nitrate, mg/L; null: not read of late
 */
export function slipsOverTop(nitrateMgL: number, kitStepsMgL: readonly number[], last: number | null): Mended[] {
  const top = kitStepsMgL.at(-1) ?? Number.POSITIVE_INFINITY;
  const tenth = Math.round(nitrateMgL * 10) / 100;
  if (nitrateMgL <= top || tenth > top) return [];
  const isDiluted = dilutions.some((times) => kitStepsMgL.includes(nitrateMgL / times));
  const isNearLast = last !== null && Math.abs(tenth - last) <= Math.max(5, 0.5 * last);
  return isDiluted && !isNearLast ? [] : [{ value: tenth, how: 'decimal' }];
}

/**
 * What a value that can be, but lies far from the tub's last one, probably was meant to be: a lost decimal point, °F, hardness in mg/L of
 * CaCO3, conductivity. Only what comes near the last value; nothing where nothing does, as water can truly move.
 *
 * @param value  in metric units
 * @param last   the tub's last value of it, not older than some weeks
 */
export function likelySlips(name: WaterValueName, value: number, last: number): Mended[] {
  const reach = reaches[name];
  if (reach === undefined || !reach.isFar(value, last)) return [];
  return reach
    .slips(value)
    .filter((slip) => canBe(name, slip.value) && reach.isNear(slip.value, last))
    .sort((one, other) => Math.abs(one.value - last) - Math.abs(other.value - last));
}
