import type { TubEvent } from './event.ts';
import { type Fit, fitCells, type NitrateSetting } from './fit.ts';
import { careOf } from './startPrior.ts';

/** Possible truths now, with their weights by sight; all weights together sum to 1. */
export interface Cloud {
  readonly levelMgL: Float64Array;
  /** mg/L a day. */
  readonly risePerDay: Float64Array;
  readonly weights: readonly Float64Array[];
  /** Chance of the newest reading given those before it, by the coarse look; 1 without two readings. */
  readonly newestChance: number;
}

/** Chance that between two readings something happened that no log tells of: a change, a dead animal, an overfeeding (assumption). */
const breakShare = 0.01;
/** A reading less likely than this makes a break worth looking at. */
const oddChance = 0.03;
/** Breaks looked at, at most: the newest odd readings. */
const mostBreaks = 2;

/** Logarithm of the chance of the first `readings`; of all when left out. */
const evidenceOf = ({ coarse }: Fit, readings = coarse.chances.length): number => coarse.logEvidences[readings] ?? 0;

/**
 * All that may be true of a tub at `nowDay`. Where a reading does not follow from those before it, that the tub began anew there
 * (something not logged) is weighed against a slip by what each makes of the readings.
 *
 * @param events in order of time, none after `nowDay`
 */
export function cloudOf(events: readonly TubEvent[], nowDay: number, setting: NitrateSetting): Cloud {
  const whole = fitCells(events, nowDay, setting);
  const places = events.flatMap(({ of }, index) => (of === 'reading' ? [index] : []));
  const odd = whole.coarse.chances
    .flatMap((chance, reading) => (reading > 0 && chance < oddChance ? [reading] : []))
    .slice(-mostBreaks);
  const { chances } = whole.coarse;
  const newestChance = chances.length < 2 ? 1 : (chances.at(-1) ?? 1);
  if (odd.length === 0) return { ...joined([{ fit: whole, share: 1 }]), newestChance };
  const care = careOf(events);
  const anew = odd.map((reading) => {
    const found = fitCells(events.slice(places[reading]), nowDay, setting, care);
    return { fit: found, log: evidenceOf(whole, reading) + Math.log(breakShare) + evidenceOf(found) };
  });
  const all = [{ fit: whole, log: evidenceOf(whole) }, ...anew];
  const top = Math.max(...all.map(({ log }) => log));
  const total = all.reduce((sum, { log }) => sum + Math.exp(log - top), 0);
  const parts = all.map(({ fit: found, log }) => ({ fit: found, share: Math.exp(log - top) / total }));
  return { ...joined(parts), newestChance };
}

function joined(parts: readonly { readonly fit: Fit; readonly share: number }[]): Omit<Cloud, 'newestChance'> {
  const first = parts[0]?.fit;
  return {
    levelMgL: inOne(parts.map((part) => part.fit.levelMgL)),
    risePerDay: inOne(parts.map((part) => part.fit.cells.risePerDay)),
    weights: (first?.weights ?? []).map((_, sight) =>
      inOne(
        parts.map(({ fit: { weights }, share }) =>
          (weights[sight] ?? new Float64Array()).map((weight) => weight * share),
        ),
      ),
    ),
  };
}

function inOne(parts: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
