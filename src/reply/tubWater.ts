import type { ChangePlan, Reading, StandingValue, WaterState, WaterVerdict } from '../domain/index.ts';
import { standingWords } from './standing.ts';
import { mgLWords, type Voice } from './voice.ts';

/** A tub's water: what was read last, and how it stands now. */
export interface TubWater {
  readonly last: { readonly reading: Reading; readonly verdict: WaterVerdict; readonly daysOld: number } | null;
  readonly plan: ChangePlan;
  /** What is not fine by the newest reading of each value, nitrate apart; the worst first. */
  readonly standing: readonly StandingValue[];
  /** The worst of these, and of nitrate as it stands by its estimate. */
  readonly waterState: WaterState;
}

/**
 * "nitrite 1 mg/L", "changed, test nitrite again", "nitrate ≈31 mg/L" as it stands by the readings; null where the water is fine.
 * @param said words for a value that stands; in full where left out
 */
export function worstWords(
  voice: Voice,
  { plan, standing, waterState }: TubWater,
  said: (voice: Voice, value: StandingValue) => string = standingWords,
): string | null {
  if (waterState === 'fine') return null;
  const [worst] = standing;
  if (worst !== undefined) return said(voice, worst);
  return plan.nitrate === null ? 'water' : `nitrate ≈${mgLWords(plan.nitrate.nowMgL.median)}`;
}
