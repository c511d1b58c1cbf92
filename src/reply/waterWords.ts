import type { WaterValueName } from '../domain/index.ts';
import { figure, tempWords, type Voice } from './voice.ts';

/** How each value is called, its unit, and the option it is typed in. */
export const valueWords: Record<
  WaterValueName,
  { readonly name: string; readonly unit: string; readonly option: string }
> = {
  tempC: { name: 'temperature', unit: '°C', option: 'temp' },
  ph: { name: 'pH', unit: '', option: 'ph' },
  ghDgh: { name: 'GH', unit: '°dGH', option: 'gh' },
  khDkh: { name: 'KH', unit: '°dKH', option: 'kh' },
  tdsMgL: { name: 'TDS', unit: 'mg/L', option: 'tds' },
  ammoniaMgL: { name: 'ammonia', unit: 'mg/L', option: 'ammonia' },
  nitriteMgL: { name: 'nitrite', unit: 'mg/L', option: 'nitrite' },
  nitrateMgL: { name: 'nitrate', unit: 'mg/L', option: 'nitrate' },
};

/** A value with its unit: "pH 7.4", "GH 8 °dGH", "21.4 °C". */
export function withUnit(voice: Voice, name: WaterValueName, value: number): string {
  if (name === 'tempC') return tempWords(voice, value);
  if (name === 'ph') return `pH ${figure(value, 2)}`;
  const { name: called, unit } = valueWords[name];
  return `${called} ${figure(value, 2)} ${unit}`;
}
