import type { WaterValueName } from '../tub.ts';
import { toDgh } from './minerals.ts';

interface Possible {
  readonly min: number;
  readonly max: number;
}

/** What a tub of living shrimp, or at least of water, can show; outside it somebody mistyped. Bounds are ours, generous. */
export const possible: Readonly<Record<WaterValueName, Possible>> = {
  tempC: { min: 0, max: 40 },
  ph: { min: 4, max: 10.5 },
  ghDgh: { min: 0, max: 50 },
  khDkh: { min: 0, max: 40 },
  tdsMgL: { min: 0, max: 3000 },
  ammoniaMgL: { min: 0, max: 20 },
  nitriteMgL: { min: 0, max: 20 },
  nitrateMgL: { min: 0, max: 500 },
};

/** Whether a value can be; NaN cannot. */
export const canBe = (name: WaterValueName, value: number): boolean =>
  value >= possible[name].min && value <= possible[name].max;

/** A mended value with what the slip seems to be. */
export interface Mended {
  readonly value: number;
  /** The other scale of temperature, a decimal point, hardness in mg/L of CaCO3, conductivity in µS/cm. */
  readonly how: 'fahrenheit' | 'celsius' | 'decimal' | 'ppm' | 'conductivity';
  /** What was meant on the other scale, where the decimal point was lost besides. */
  readonly meant?: number;
}

export const celsiusOf = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
export const fahrenheitOf = (celsius: number): number => celsius * 1.8 + 32;

/** What tubs mostly show; ours. */
export const usual: Readonly<Record<WaterValueName, Possible>> = {
  tempC: { min: 8, max: 34 },
  ph: { min: 5.5, max: 9.5 },
  ghDgh: { min: 1, max: 30 },
  khDkh: { min: 0.5, max: 25 },
  tdsMgL: { min: 50, max: 1500 },
  ammoniaMgL: { min: 0, max: 8 },
  nitriteMgL: { min: 0, max: 5 },
  nitrateMgL: { min: 0, max: 160 },
};

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** A hardness that was typed in mg/L of CaCO3 (ppm), to a tenth of a degree. */
export const hardnessOfPpm = (mgL: number): number => tenth(toDgh(mgL, 'mg/L CaCO3'));

/**
 * What an impossible value probably was meant to be, the likeliest first: degrees of the other scale in a temperature field, hardness in
 * mg/L of CaCO3, or a lost decimal point. Only what gives a usual value. `typed` is on the scale of the person's units.
 */
export function mendings(name: WaterValueName, typed: number, inFahrenheit: boolean): Mended[] {
  const fits = ({ value }: Mended): boolean => value >= usual[name].min && value <= usual[name].max;
  if (name === 'tempC') return temperatures(typed, inFahrenheit).filter(fits).slice(0, 1);
  if (!(typed > 0)) return [];
  const isHardness = name === 'ghDgh' || name === 'khDkh';
  const ppm: readonly Mended[] = isHardness ? [{ value: hardnessOfPpm(typed), how: 'ppm' }] : [];
  const points = [typed / 10, typed / 100, typed * 10].map(
    (value): Mended => ({ value: Math.round(value * 100) / 100, how: 'decimal' }),
  );
  return [...ppm.filter(fits), ...points.filter(fits).slice(0, 1)];
}

/** The readings of a temperature that was typed on the other scale, or without its decimal point, in °C. */
function temperatures(typed: number, inFahrenheit: boolean): Mended[] {
  const shifted = typed / 10;
  return inFahrenheit
    ? [
        { value: typed, how: 'celsius' },
        { value: tenth(celsiusOf(shifted)), how: 'decimal' },
        { value: tenth(shifted), how: 'celsius', meant: tenth(shifted) },
      ]
    : [
        { value: tenth(celsiusOf(typed)), how: 'fahrenheit' },
        { value: tenth(shifted), how: 'decimal' },
      ];
}

/** Whether a temperature and a pH, typed in each other's place, both can be as what they are: `tempC` in °C. */
export const areSwapped = (
  asTyped: { readonly tempC: number; readonly ph: number },
  swapped: { readonly tempC: number; readonly ph: number },
): boolean =>
  !(canBe('tempC', asTyped.tempC) && canBe('ph', asTyped.ph)) &&
  swapped.tempC >= usual.tempC.min &&
  swapped.tempC <= usual.tempC.max &&
  swapped.ph >= usual.ph.min &&
  swapped.ph <= usual.ph.max;
