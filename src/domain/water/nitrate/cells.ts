import { normalDensity } from './normal.ts';
import { type RisePrior, risePriorDensity } from './risePrior.ts';
import { seenMgL } from './sight.ts';

/**
 * Possible truths of a tub, as arrays side by side: nitrate at the start (u, on the seen scale), rise today, and how the rise has drifted.
 * The mass is the prior chance of the cell.
 */
export interface Cells {
  readonly count: number;
  readonly u: Float64Array;
  /** Rise, or fall, in standard deviations of its prior's logarithm. */
  readonly z: Float64Array;
  /** 1 where nitrate falls. */
  readonly falls: Uint8Array;
  readonly drift: Uint8Array;
  readonly risePerDay: Float64Array;
  readonly mass: Float64Array;
  readonly uWidth: number;
  readonly zWidth: number;
}

/** Drift of the rise: growth of its logarithm a day, with shares. ±30 % in two months, as stock and feeding change (assumption). */
export const drifts = [
  { perDay: -0.3 / 60, weight: 0.25 },
  { perDay: 0, weight: 0.5 },
  { perDay: 0.3 / 60, weight: 0.25 },
] as const;
const steadyDrift = 1;

/**
 * Much planted tubs lose nitrate: a small share (assumption), log-normal about 0.12 mg/L a day, so that a tub which sinks without changes is
 * believed after a few readings and not before.
 */
const fallingShare = 0.03;
const falling: RisePrior = { medianPerDay: 0.12, logSd: 0.8 };

const riseDensity = (z: number): number => (1 - fallingShare) * risePriorDensity(z);
const fallDensity = (z: number): number => fallingShare * normalDensity(z, 0, 1);

const startNodes = 20;
const riseNodes = 32;
const zTop = 4.5;
const fallZTop = 3;
/** Cells of the fine look, at most about this many. */
const fineCells = 3500;
const mostSplits = 6;

type Density = (u: number, risePerDay: number) => number;

/** Fills arrays of `count` cells one by one; rows share their rise, so what only the rise decides is worked out once a row. */
function cellFiller(count: number, uWidth: number, zWidth: number, density: Density, prior: RisePrior) {
  const cells: Cells = {
    count,
    u: new Float64Array(count),
    z: new Float64Array(count),
    falls: new Uint8Array(count),
    drift: new Uint8Array(count),
    risePerDay: new Float64Array(count),
    mass: new Float64Array(count),
    uWidth,
    zWidth,
  };
  let at = 0;
  const fillRow = (z: number, falls: number, drift: number, us: ArrayLike<number>): void => {
    const { medianPerDay, logSd } = falls === 1 ? falling : prior;
    const perDay = medianPerDay * Math.exp(z * logSd);
    const risePerDay = falls === 1 ? -perDay : perDay;
    const share = falls === 1 ? fallDensity(z) : riseDensity(z) * (drifts[drift]?.weight ?? 0);
    const rowMass = share * zWidth * uWidth;
    for (let place = 0; place < us.length; place++) {
      const u = us[place] ?? 0;
      cells.u[at] = u;
      cells.z[at] = z;
      cells.falls[at] = falls;
      cells.drift[at] = drift;
      cells.risePerDay[at] = risePerDay;
      cells.mass[at] = rowMass * density(u, risePerDay);
      at++;
    }
  };
  return { cells, fillRow };
}

const middles = (from: number, to: number, count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, index) => from + ((to - from) * (index + 0.5)) / count);

/**
 * The coarse look: everything possible.
 *
 * @param range   bounds of the start on the seen scale
 * @param density prior density of the start given the rise
 */
export function coarseCells(range: readonly [number, number], density: Density, prior: RisePrior): Cells {
  const us = middles(range[0], range[1], startNodes);
  const zs = middles(-zTop, zTop, riseNodes);
  const fallZs = zs.filter((z) => Math.abs(z) < fallZTop);
  const count = startNodes * (zs.length * drifts.length + fallZs.length);
  const uWidth = (range[1] - range[0]) / startNodes;
  const { cells, fillRow } = cellFiller(count, uWidth, (2 * zTop) / riseNodes, density, prior);
  for (const z of zs) for (const drift of drifts.keys()) fillRow(z, 0, drift, us);
  for (const z of fallZs) fillRow(z, 1, steadyDrift, us);
  return cells;
}

/**
 * The fine look: the coarse cells marked heavy, each split evenly into as many as the budget allows.
 *
 * @param heavy places of the cells
 */
export function splitCells(coarse: Cells, heavy: readonly number[], density: Density, prior: RisePrior): Cells {
  const splits = Math.max(1, Math.min(mostSplits, Math.round(Math.sqrt(fineCells / Math.max(1, heavy.length)))));
  const count = heavy.length * splits ** 2;
  const offsets = middles(-0.5, 0.5, splits);
  const us = new Float64Array(splits);
  const { cells, fillRow } = cellFiller(count, coarse.uWidth / splits, coarse.zWidth / splits, density, prior);
  for (const place of heavy) {
    for (let part = 0; part < splits; part++) us[part] = (coarse.u[place] ?? 0) + (offsets[part] ?? 0) * coarse.uWidth;
    for (const offset of offsets) {
      const z = (coarse.z[place] ?? 0) + offset * coarse.zWidth;
      fillRow(z, coarse.falls[place] ?? 0, coarse.drift[place] ?? steadyDrift, us);
    }
  }
  return cells;
}

/** Nitrate at the start of each cell, mg/L. */
export function startLevels({ u, count }: Cells): Float64Array {
  const levels = new Float64Array(count);
  for (let place = 0; place < count; place++) levels[place] = seenMgL(u[place] ?? 0);
  return levels;
}
