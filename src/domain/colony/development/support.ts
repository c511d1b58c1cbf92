import { berriedSupport, broodSupport } from './brood.ts';
import { femaleShareSupport } from './femaleShare.ts';
import { growthSupport, lengthSupport } from './growth.ts';
import { eggSupport } from './incubation.ts';
import type { RateSupport } from './rateCurve.ts';

/**
 * What each rate rests on where it is asked for: at a temperature (°C), but broodSize at the female's and saleableDays at the line's length (mm)
 * and crowding at a density (animals a litre).
 */
export const supportOf = {
  eggDays: eggSupport,
  growth: growthSupport,
  saleableDays: lengthSupport,
  broodSize: broodSupport,
  broodRest: (_tempC: number): RateSupport => 'assumed',
  berriedShare: berriedSupport,
  death: (_tempC: number): RateSupport => 'assumed',
  femaleShare: femaleShareSupport,
  crowding: (_perLitre: number): RateSupport => 'assumed',
} as const satisfies Readonly<Record<string, (at: number) => RateSupport>>;

/** A rate of development that can be asked what it rests on. */
export type DevelopmentRate = keyof typeof supportOf;
