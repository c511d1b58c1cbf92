import type { WaterValueName } from '../tub.ts';

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
  readonly how: 'fahrenheit' | 'celsius' | 'decimal';
}

export const celsiusOf = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
export const fahrenheitOf = (celsius: number): number => celsius * 1.8 + 32;

const usual: Readonly<Record<WaterValueName, Possible>> = {
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

/**
 * What an impossible value probably was meant to be: degrees of the other scale in a temperature field, or a lost decimal point.
 * Null when neither gives a usual value. `typed` is on the scale of the person's units.
 */
export function mend(name: WaterValueName, typed: number, inFahrenheit: boolean): Mended | null {
  const fits = (value: number): boolean => value >= usual[name].min && value <= usual[name].max;
  if (name === 'tempC') {
    if (inFahrenheit && fits(typed)) return { value: typed, how: 'celsius' };
    if (!inFahrenheit && fits(celsiusOf(typed))) return { value: tenth(celsiusOf(typed)), how: 'fahrenheit' };
    const shifted = inFahrenheit ? celsiusOf(typed / 10) : typed / 10;
    return fits(shifted) ? { value: tenth(shifted), how: 'decimal' } : null;
  }
  return fits(typed / 10) && typed > 0 ? { value: Math.round(typed * 10) / 100, how: 'decimal' } : null;
}
