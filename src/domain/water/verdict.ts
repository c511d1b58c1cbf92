import type { Business } from '../business.ts';
import type { WaterValues } from '../tub.ts';
import { unionisedShare } from './ammonia.ts';
import { type AmmoniaComparison, compareAmmonia } from './criteria.ts';
import { oxygenSaturationMgL, pressureAtAltitudeKPa } from './oxygen.ts';

/** Act is for what harms today; watch for what will; fine needs nothing. */
export type WaterState = 'fine' | 'watch' | 'act';

/** One judged value with the figures that decide. */
export type Finding =
  | {
      readonly of: 'ammonia';
      readonly state: WaterState;
      readonly totalMgL: number;
      readonly unionisedMgL: number;
      readonly share: number;
      readonly assumed: readonly ('pH' | 'temperature')[];
      /** What would be un-ionised at pH 8, which many taps have, mg/L; null: the tub's pH is as high. */
      readonly atPh8MgL: number | null;
      /** Beside the published criteria; null: none detected, or outside the range they are given for. */
      readonly criteria: AmmoniaComparison | null;
    }
  | { readonly of: 'nitrite'; readonly state: WaterState; readonly mgL: number }
  | {
      readonly of: 'nitrate';
      readonly state: WaterState;
      readonly mgL: number;
      readonly limitMgL: number;
      readonly sourceMgL: number;
    }
  | {
      readonly of: 'temperature';
      readonly state: WaterState;
      readonly tempC: number;
      /** Most oxygen that water of this temperature holds at the height of the place, mg/L. */
      readonly oxygenMgL: number;
    }
  | { readonly of: 'ph'; readonly state: WaterState; readonly ph: number }
  | { readonly of: 'gh'; readonly state: WaterState; readonly dgh: number }
  | { readonly of: 'kh'; readonly state: WaterState; readonly dkh: number }
  | { readonly of: 'tds'; readonly state: WaterState; readonly mgL: number; readonly usualMgL: number | null };

export interface WaterVerdict {
  readonly state: WaterState;
  /** Worst first. */
  readonly findings: readonly Finding[];
}

const rank: Record<WaterState, number> = { fine: 0, watch: 1, act: 2 };

const band = (value: number, fine: readonly [number, number], watch: readonly [number, number]): WaterState => {
  if (value >= fine[0] && value <= fine[1]) return 'fine';
  return value >= watch[0] && value <= watch[1] ? 'watch' : 'act';
};

/** Un-ionised ammonia that harms, mg/L. Source: University of Florida IFAS, FA16, for fish. */
export const harmfulUnionisedMgL = 0.05;

/**
 * Judges one reading.
 *
 * Ammonia by what is toxic: un-ionised ammonia of 0.05 mg/L harms (University of Florida IFAS, FA16, for fish; no figure for
 * Neocaridina was found), 0.02 mg/L is the usual shop limit (common practice, no source). Where the tub's pH or temperature is not
 * known, pH 8.0 and 25 °C are assumed and named. Total ammonia counts as the kit shows it, whether the kit means NH3, NH4 or nitrogen
 * (at most 6 % apart as un-ionised ammonia, and on the safe side). Nitrite, pH, GH, KH, TDS and temperature bands, and TDS drift over
 * 20 % from the tub's usual value: common practice, no source.
 *
 * @param values   the reading; what was not measured is null
 * @param known    the tub's last known pH and temperature, and its usual TDS
 * @param business limit, source water, and the height of the place
 */
export function judgeReading(
  values: WaterValues,
  known: { readonly ph: number | null; readonly tempC: number | null; readonly usualTdsMgL: number | null },
  business: Pick<Business, 'nitrateLimitMgL' | 'sourceNitrateMgL' | 'altitudeM'>,
): WaterVerdict {
  const findings: Finding[] = [];
  if (values.ammoniaMgL !== null) {
    const ph = values.ph ?? known.ph;
    const tempC = values.tempC ?? known.tempC;
    const share = unionisedShare(ph ?? 8, tempC ?? 25);
    const unionisedMgL = share * values.ammoniaMgL;
    const state =
      unionisedMgL >= harmfulUnionisedMgL ? 'act' : values.ammoniaMgL > 0.2 || unionisedMgL >= 0.02 ? 'watch' : 'fine';
    const assumed = [...(ph === null ? (['pH'] as const) : []), ...(tempC === null ? (['temperature'] as const) : [])];
    const atPh8MgL = ph === null || ph >= 8 ? null : unionisedShare(8, tempC ?? 25) * values.ammoniaMgL;
    const criteria = criteriaFor(values.ammoniaMgL, ph ?? 8, tempC ?? 25);
    findings.push({
      of: 'ammonia',
      state,
      totalMgL: values.ammoniaMgL,
      unionisedMgL,
      share,
      assumed,
      atPh8MgL,
      criteria,
    });
  }
  if (values.nitriteMgL !== null) {
    const mgL = values.nitriteMgL;
    findings.push({ of: 'nitrite', state: mgL > 0.5 ? 'act' : mgL > 0 ? 'watch' : 'fine', mgL });
  }
  if (values.tempC !== null) {
    const oxygenMgL = oxygenSaturationMgL(values.tempC, pressureAtAltitudeKPa(business.altitudeM));
    findings.push({
      of: 'temperature',
      state: band(values.tempC, [10, 27], [5, 29.9]),
      tempC: values.tempC,
      oxygenMgL,
    });
  }
  if (values.nitrateMgL !== null) {
    const mgL = values.nitrateMgL;
    findings.push({
      of: 'nitrate',
      state: mgL > business.nitrateLimitMgL ? 'watch' : 'fine',
      mgL,
      limitMgL: business.nitrateLimitMgL,
      sourceMgL: business.sourceNitrateMgL,
    });
  }
  if (values.ph !== null) findings.push({ of: 'ph', state: band(values.ph, [6.5, 8.2], [5.8, 9]), ph: values.ph });
  if (values.ghDgh !== null) {
    findings.push({ of: 'gh', state: band(values.ghDgh, [6, 15], [0, 50]), dgh: values.ghDgh });
  }
  if (values.khDkh !== null) {
    findings.push({ of: 'kh', state: band(values.khDkh, [1, 15], [0, 40]), dkh: values.khDkh });
  }
  if (values.tdsMgL !== null) {
    const usualMgL = known.usualTdsMgL;
    const drifted = usualMgL !== null && Math.abs(values.tdsMgL - usualMgL) > 0.2 * usualMgL;
    const inBand = band(values.tdsMgL, [60, 1000], [0, 3000]);
    findings.push({ of: 'tds', state: drifted ? 'watch' : inBand, mgL: values.tdsMgL, usualMgL });
  }
  findings.sort((a, b) => rank[b.state] - rank[a.state]);
  return { state: findings[0]?.state ?? 'fine', findings };
}

/** The published criteria are given for pH 6.5 to 9 and 0 to 30 °C. */
function criteriaFor(totalMgL: number, ph: number, tempC: number): AmmoniaComparison | null {
  if (totalMgL === 0 || ph < 6.5 || ph > 9 || tempC < 0 || tempC > 30) return null;
  return compareAmmonia(totalMgL, ph, tempC);
}
