import type { WaterValueName } from '../tub.ts';
import { tdsOfEc, usualTdsFactor } from './minerals.ts';
import { canBe, celsiusOf, hardnessOfPpm, type Mended } from './possible.ts';

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
    slips: (value) => [...decimals(value), { value: Math.round(tdsOfEc(value, usualTdsFactor)), how: 'conductivity' }],
  },
};

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
