import {
  type Change,
  type ChartData,
  fahrenheitOf,
  type Reading,
  type Tub,
  type WaterValueName,
} from '../domain/index.ts';
import { counted, figure, type Voice } from './voice.ts';
import { valueWords } from './waterWords.ts';

export interface WaterPast {
  readonly tub: Tub;
  /** Oldest first. */
  readonly readings: readonly Reading[];
  readonly changes: readonly Change[];
  readonly nitrateLimitMgL: number;
}

/** How a value is drawn: what a colour kit tells holds until the next reading, what is measured moves from one to the next. */
const kinds: Readonly<Record<WaterValueName, 'line' | 'steps'>> = {
  nitrateMgL: 'steps',
  nitriteMgL: 'steps',
  ammoniaMgL: 'steps',
  tempC: 'line',
  ph: 'line',
  tdsMgL: 'line',
  ghDgh: 'line',
  khDkh: 'line',
};

/**
 * One value of a tub over time, with the water changes that were logged since its first reading, and for nitrate the limit. Null where
 * the value was read fewer than `atLeast` times.
 */
export function waterChart(voice: Voice, past: WaterPast, of: WaterValueName, atLeast: number): ChartData | null {
  const { name, unit } = valueWords[of];
  const kind = kinds[of];
  const inFahrenheit = of === 'tempC' && voice.units === 'us';
  const points = past.readings.flatMap(({ at, [of]: value }) =>
    value === null ? [] : [{ at, value: inFahrenheit ? fahrenheitOf(value) : value }],
  );
  const [first] = points;
  if (first === undefined || points.length < atLeast) return null;
  const changed = past.changes.filter(({ at }) => at >= first.at).map(({ at }) => at);
  return {
    title: `${past.tub.name} ${name}`,
    unit: inFahrenheit ? '°F' : unit,
    zone: voice.zone,
    fromZero: kind === 'steps',
    series: [{ name, kind, points }],
    ...(of === 'nitrateMgL' && {
      limit: { value: past.nitrateLimitMgL, label: `limit ${figure(past.nitrateLimitMgL)}` },
    }),
    ...(changed.length > 0 && { marks: { label: counted(changed.length, 'water change'), at: changed } }),
  };
}
