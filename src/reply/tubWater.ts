import type { ChangePlan, Reading, WaterState, WaterVerdict } from '../domain/index.ts';
import { figureOf } from './findings.ts';
import { mgLWords, type Voice } from './voice.ts';

/** A tub's water: what was read last, and how it stands now. */
export interface TubWater {
  readonly last: { readonly reading: Reading; readonly verdict: WaterVerdict; readonly daysOld: number } | null;
  readonly plan: ChangePlan;
  /** The worst of the last reading, with nitrate as it stands after the changes since it was read. */
  readonly waterState: WaterState;
}

/** "nitrite 1 mg/L", "nitrate ≈31 mg/L" as it stands by the readings; null where the water is fine. */
export function worstWords(voice: Voice, { last, plan, waterState }: TubWater): string | null {
  if (waterState === 'fine') return null;
  const worst = last?.verdict.findings.find(({ of, state }) => of !== 'nitrate' && state === waterState);
  if (worst !== undefined) return figureOf(voice, worst);
  if (plan.nitrate === null) return 'water';
  return `nitrate ≈${mgLWords(plan.nitrate.nowMgL.median)}`;
}
