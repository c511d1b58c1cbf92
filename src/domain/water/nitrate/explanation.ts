import { ionOf } from '../nitrogen.ts';
import { quantilesOf } from './estimate.ts';
import type { TubEvent } from './event.ts';
import type { Foretold, Happening } from './foretold.ts';

/** What may lie behind a reading that does not follow from those before it, with the figures that fit best. */
export type Explanation =
  /** A change that nobody logged: about this fraction of the net volume, were it made just before the reading. */
  | { readonly of: 'unlogged-change'; readonly fraction: number; readonly share: number }
  /** The change of that day was made twice: each time this fraction. */
  | { readonly of: 'double-change'; readonly day: number; readonly fraction: number; readonly share: number }
  /** The change of that day was logged and not made, or logged twice. */
  | { readonly of: 'change-not-made'; readonly day: number; readonly fraction: number; readonly share: number }
  /** The colour was taken for a wrong step: this one was to be expected. */
  | { readonly of: 'misread'; readonly expectedMgL: number; readonly share: number }
  /** Nitrogen was typed for nitrate: as nitrate it is this. */
  | { readonly of: 'nitrogen'; readonly nitrateMgL: number; readonly share: number }
  /** Nitrate rose at once by this much: a dead animal, an overfeeding, decaying plants. */
  | { readonly of: 'jump'; readonly addedMgL: number; readonly share: number };

/** Omit over each member of a union. */
type Unshared<T> = T extends unknown ? Omit<T, 'share'> : never;

interface Candidate {
  readonly explanation: Unshared<Explanation>;
  readonly weight: number;
}

/** What is asked about: the reading, and what was known when it was taken. */
export interface OddReading {
  readonly typedMgL: number;
  readonly foretold: Foretold;
  readonly sourceMgL: number;
  readonly kitStepsMgL: readonly number[];
  /** Changes logged between the reading before and this one. */
  readonly changesSince: readonly Extract<TubEvent, { of: 'change' }>[];
  /** Whether an earlier reading of the tub lies between steps. */
  readonly readsBetweenSteps: boolean;
}

/** How likely each is before the reading speaks (assumption; the trade names them all, none gives figures). */
const usual = { unlogged: 0.3, double: 0.3, notMade: 0.15, misread: 0.3, nitrogen: 0.15, jump: 0.25 };
/** A misread colour is mostly one step off. */
const oneStepShare = 0.85;
/** Unlogged fractions tried, the greater the rarer. */
const fractions = Array.from({ length: 19 }, (_, index) => (index + 1) / 20);
const fractionScale = 0.4;
/** Sudden rises tried, mg/L, even over their logarithm. */
const jumps = Array.from({ length: 18 }, (_, index) => 3 * 1.28 ** index);

const changed =
  (fraction: number, sourceMgL: number): Happening =>
  (levelMgL) =>
    (1 - fraction) * levelMgL + fraction * sourceMgL;

const changeUndone =
  (fraction: number, sourceMgL: number): Happening =>
  (levelMgL) =>
    (levelMgL - fraction * sourceMgL) / (1 - fraction);

/** Chance over all sizes of a happening, and the median size that fits. */
function overSizes(
  sizes: readonly number[],
  rarity: (size: number) => number,
  chanceAt: (size: number) => number,
): { chance: number; size: number } {
  const rarities = sizes.map(rarity);
  const total = rarities.reduce((sum, value) => sum + value, 0);
  const weights = sizes.map((size, index) => ((rarities[index] ?? 0) / total) * chanceAt(size));
  return { chance: weights.reduce((sum, weight) => sum + weight, 0), size: quantilesOf(sizes, weights, [0.5])[0] ?? 0 };
}

function ofUnlogged({ typedMgL, foretold, sourceMgL }: OddReading): Candidate {
  const { chance, size } = overSizes(
    fractions,
    (fraction) => Math.exp(-fraction / fractionScale),
    (fraction) => foretold.chanceOf(typedMgL, changed(fraction, sourceMgL)),
  );
  return { explanation: { of: 'unlogged-change', fraction: size }, weight: usual.unlogged * chance };
}

function ofLogged({ typedMgL, foretold, sourceMgL, changesSince }: OddReading): Candidate[] {
  return changesSince.flatMap(({ day, fraction }) => {
    const again = foretold.chanceOf(typedMgL, changed(fraction, sourceMgL));
    const undone = fraction < 1 ? foretold.chanceOf(typedMgL, changeUndone(fraction, sourceMgL)) : 0;
    const part = 1 / changesSince.length;
    return [
      { explanation: { of: 'double-change', day, fraction } as const, weight: usual.double * part * again },
      { explanation: { of: 'change-not-made', day, fraction } as const, weight: usual.notMade * part * undone },
    ];
  });
}

function ofMisread({ typedMgL, foretold, kitStepsMgL }: OddReading): Candidate[] {
  const at = kitStepsMgL.findIndex((step) => step >= typedMgL);
  const others = kitStepsMgL.filter((step) => step !== typedMgL);
  const isNext = (step: number): boolean =>
    step === kitStepsMgL[at - 1] || step === kitStepsMgL[kitStepsMgL[at] === typedMgL ? at + 1 : at];
  const near = others.filter(isNext);
  const far = others.filter((step) => !isNext(step));
  const chances = others.map((step) => ({ step, chance: foretold.chanceOf(step) }));
  const best = chances.reduce((most, one) => (one.chance > most.chance ? one : most), { step: typedMgL, chance: 0 });
  const partOf = (steps: readonly number[], share: number): number =>
    chances.reduce((sum, { step, chance }) => sum + (steps.includes(step) ? (share * chance) / steps.length : 0), 0);
  const weight = usual.misread * (partOf(near, oneStepShare) + partOf(far, 1 - oneStepShare));
  return best.chance > 0 ? [{ explanation: { of: 'misread', expectedMgL: best.step }, weight }] : [];
}

/**
 * Nitrogen for nitrate. A value off the kit's steps that times 4.43 falls on one speaks for it, as somebody has reckoned; a value on a
 * step speaks against it, unless the kit's card is in nitrogen too.
 */
function ofNitrogen({ typedMgL, foretold, kitStepsMgL, readsBetweenSteps }: OddReading): Candidate[] {
  if (typedMgL <= 0) return [];
  const nitrateMgL = ionOf('nitrate', typedMgL);
  const step = kitStepsMgL.find((one) => one > 0 && Math.abs(one - nitrateMgL) <= 0.12 * one);
  const telling = kitStepsMgL.includes(typedMgL) ? 0.12 : step === undefined || readsBetweenSteps ? 1 : 3;
  const weight = usual.nitrogen * telling * foretold.chanceOf(step ?? nearest(nitrateMgL, kitStepsMgL));
  return [{ explanation: { of: 'nitrogen', nitrateMgL }, weight }];
}

function ofJump({ typedMgL, foretold }: OddReading): Candidate {
  const { chance, size } = overSizes(
    jumps,
    () => 1,
    (added) => foretold.chanceOf(typedMgL, (levelMgL) => levelMgL + added),
  );
  return { explanation: { of: 'jump', addedMgL: size }, weight: usual.jump * chance };
}

const nearest = (mgL: number, steps: readonly number[]): number =>
  steps.reduce((best, step) => (Math.abs(step - mgL) < Math.abs(best - mgL) ? step : best), steps[0] ?? mgL);

/** Explanations of a reading that does not follow from those before it, the likeliest first; shares of all sum to 1. */
export function explanationsOf(odd: OddReading): Explanation[] {
  const candidates = [ofUnlogged(odd), ...ofLogged(odd), ...ofMisread(odd), ...ofNitrogen(odd), ofJump(odd)];
  const total = candidates.reduce((sum, { weight }) => sum + weight, 0);
  return candidates
    .filter(({ weight }) => weight > 0.02 * total)
    .sort((one, other) => other.weight - one.weight)
    .map(({ explanation, weight }) => ({ ...explanation, share: weight / total }));
}
