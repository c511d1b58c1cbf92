import type { Business, TopUpWater } from '../src/domain/index.ts';
import type { Random } from './random.ts';

/** What sets a tub apart from the others. */
export interface WaterTraits {
  /** Nitrate made from food and waste, mg/L per day. */
  readonly riseMgLDay: number;
  /** Water lost by evaporation, L per day. */
  readonly evaporationLDay: number;
  /** What it is topped up with. */
  readonly topUpWater: TopUpWater;
  /** Rise of the temperature over the middle of the rack, K. */
  readonly offsetC: number;
}

/** Tubs that are fed too much, and tubs without a lid that get tap water in place of what evaporated. Those are the ones to watch. */
const overfed: readonly string[] = ['K3', 'L2', 'M4'];
const open: readonly string[] = ['K6', 'M1'];

/** Higher shelves stand warmer. */
const shelfC: Readonly<Record<string, number>> = { K: 0.6, L: 0, M: -0.5 };

export function traitsOf(random: Random, tub: string): WaterTraits {
  const isOpen = open.includes(tub);
  const rise = random.between(0.12, 0.36);
  return {
    riseMgLDay: overfed.includes(tub) ? rise + 1.05 : rise,
    evaporationLDay: isOpen ? random.between(0.1, 0.13) : random.between(0.03, 0.08),
    topUpWater: isOpen ? 'tap' : 'soft',
    offsetC: (shelfC[tub.slice(0, 1)] ?? 0) + random.between(-0.2, 0.2),
  };
}

/** Source water of the demo business, as it really is: the books have the same figures but for rounding. */
const source = { nitrateMgL: 6.2, tdsMgL: 262 } as const;
const softTdsMgL = 4;

/** The water of one tub as it really is: what is dissolved in it, and what evaporated. */
export interface TubWater {
  readonly traits: WaterTraits;
  readonly netLitres: number;
  nitrateMg: number;
  mineralsMg: number;
  missingL: number;
}

export const fillTub = (traits: WaterTraits, netLitres: number, random: Random): TubWater => ({
  traits,
  netLitres,
  nitrateMg: random.between(10, 20) * netLitres,
  mineralsMg: random.between(250, 290) * netLitres,
  missingL: 0,
});

const litresIn = ({ netLitres, missingL }: TubWater): number => netLitres - missingL;

export const nitrateMgL = (water: TubWater): number => water.nitrateMg / litresIn(water);
export const tdsMgL = (water: TubWater): number => water.mineralsMg / litresIn(water);

/** Lets a day pass; less is eaten, and made, in the cold. */
export function passDay(water: TubWater, tempC: number): void {
  const appetite = Math.max(0.4, 1 + (tempC - 21) * 0.08);
  water.nitrateMg += water.traits.riseMgLDay * appetite * water.netLitres;
  water.missingL += water.traits.evaporationLDay * Math.max(0.5, 1 + (tempC - 21) * 0.05);
}

/** Swaps litres for source water; what has evaporated stays missing. */
export function swap(water: TubWater, litres: number): void {
  const left = 1 - litres / litresIn(water);
  water.nitrateMg = water.nitrateMg * left + litres * source.nitrateMgL;
  water.mineralsMg = water.mineralsMg * left + litres * source.tdsMgL;
}

export function topUp(water: TubWater, litres: number, kind: TopUpWater): void {
  water.missingL = Math.max(0, water.missingL - litres);
  water.mineralsMg += litres * (kind === 'tap' ? source.tdsMgL : softTdsMgL);
  if (kind === 'tap') water.nitrateMg += litres * source.nitrateMgL;
}

/** What the colour kit is taken to show: the step that is nearest by ratio, through an eye that errs by about an eighth. */
export function kitNitrateMgL(water: TubWater, stepsMgL: readonly number[], random: Random): number {
  const seen = Math.max(0.5, nitrateMgL(water) * Math.exp(0.12 * random.normal()));
  const distance = (step: number): number => Math.abs(Math.log(Math.max(step, 1) / seen));
  return [...stepsMgL].sort((a, b) => distance(a) - distance(b))[0] ?? 0;
}

/** Litres that somebody changes who knows the tub: down to well under the limit, inside the policy, to half a litre. */
export function wantedLitres(
  water: TubWater,
  { nitrateLimitMgL, changeMinPercent, changeMaxPercent }: Business,
): number {
  const level = nitrateMgL(water);
  const wanted = (level - 0.65 * nitrateLimitMgL) / Math.max(1, level - source.nitrateMgL);
  const share = Math.min(changeMaxPercent / 100, Math.max(changeMinPercent / 100, wanted));
  return Math.round(share * water.netLitres * 2) / 2;
}
