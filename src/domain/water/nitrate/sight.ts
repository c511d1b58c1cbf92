import { type ReadInterval, readInterval } from './interval.ts';
import { normalBelow } from './normal.ts';

/**
 * The scale on which a colour is seen: the logarithm, flat where a kit tells nothing apart (below about 1 mg/L; assumption).
 *
 *   u = ln(N + 1)
 */
export const seenScale = (mgL: number): number => Math.log(Math.max(0, mgL) + 1);
export const seenMgL = (u: number): number => Math.exp(u) - 1;

/** One way of seeing: how far two looks at the same colour differ (standard deviation on the seen scale), and how likely it is. */
export interface Sight {
  readonly sd: number;
  /** How far past the edges of a step it is still taken for it, on the seen scale. */
  readonly reach: number;
  readonly weight: number;
}

/**
 * Eyes and light from steady to poor. Which of them holds is left to the readings: months of the same step speak for a steady eye.
 * Common practice, no source.
 */
export const sights: readonly Sight[] = [
  { sd: 0.006, reach: 0, weight: 0.7 },
  { sd: 0.07, reach: 0, weight: 0.18 },
  { sd: 0.15, reach: 0, weight: 0.12 },
];

/**
 * The blunt sight of the first, coarse look: it reaches past the edges of a reading by as much as a coarse cell is wide, so that no
 * narrow truth falls between the cells and months of the same step don't cut off what lies near its edges.
 */
export const bluntSights: readonly Sight[] = [{ sd: 0.08, reach: 0.08, weight: 1 }];

/**
 * Part of all readings that are plainly wrong (bottle not shaken, wrong line of the card), how far they are off on the seen scale, and the
 * chance of any one step in a reading that has nothing to do with the tub (assumptions).
 */
const slipShare = 0.02;
const slipSight = { sd: 0.5, reach: 0 };
const strayShare = 0.07;
const strayChance = 0.15;

/** Least spread about a value that was read between two steps, on the seen scale. */
const betweenSd = 0.05;

/** Entries per root of a mg/L, and the highest nitrate that is told apart, mg/L. */
const perRoot = 64;
const tableTopMgL = 900;
const tableLength = Math.ceil(Math.sqrt(tableTopMgL) * perRoot) + 1;
/** The seen scale of each entry. */
const tableU = Float64Array.from({ length: tableLength }, (_, index) => seenScale((index / perRoot) ** 2));
/** The entry that holds the chance at `mgL` (at least 0). */
export const tableIndex = (mgL: number): number => Math.min(tableLength - 1, Math.round(Math.sqrt(mgL) * perRoot));

/**
 * Chance that water of each tabled nitrate is read inside the interval, for such an eye; slips left out.
 */
export function chanceTable(
  { lowMgL, highMgL, isStep }: ReadInterval,
  { sd, reach }: Pick<Sight, 'sd' | 'reach'>,
): Float64Array {
  const spread = isStep ? sd : Math.max(sd, betweenSd);
  const table = new Float64Array(tableLength);
  const lowU = seenScale(lowMgL) - reach;
  const highU = seenScale(highMgL) + reach;
  for (let index = 0; index < tableLength; index++) {
    const u = tableU[index] ?? 0;
    const below = lowMgL <= 0 ? 0 : normalBelow((lowU - u) / spread);
    const above = Number.isFinite(highU) ? normalBelow((highU - u) / spread) : 1;
    table[index] = Math.max(0, above - below);
  }
  return table;
}

/** Chances of one reading by sight, over all tabled nitrates: without slips, and with them. */
export interface ReadingTables {
  readonly clean: readonly Float64Array[];
  readonly full: readonly Float64Array[];
}

function tablesFor(interval: ReadInterval, eyes: readonly Sight[]): ReadingTables {
  const slip = chanceTable(interval, slipSight);
  const clean = eyes.map((eye) => chanceTable(interval, eye));
  const full = clean.map((table) =>
    table.map((chance, index) => {
      const slipped = (1 - strayShare) * (slip[index] ?? 0) + strayShare * strayChance;
      return (1 - slipShare) * chance + slipShare * slipped;
    }),
  );
  return { clean, full };
}

/** A kit has a handful of steps, so tables are kept from one inference to the next; with more intervals than this they begin anew. */
const mostKept = 40;
const kept = new WeakMap<readonly Sight[], Map<string, ReadingTables>>();

/** The chance tables of every value typed, made once each. */
export function tableMaker(
  kitStepsMgL: readonly number[],
  eyes: readonly Sight[],
): (typedMgL: number) => ReadingTables {
  const made = kept.get(eyes) ?? new Map<string, ReadingTables>();
  kept.set(eyes, made);
  return (typedMgL) => {
    const interval = readInterval(typedMgL, kitStepsMgL);
    const key = `${interval.lowMgL} ${interval.highMgL} ${interval.isStep}`;
    const known = made.get(key);
    if (known !== undefined) return known;
    if (made.size >= mostKept) made.clear();
    const tables = tablesFor(interval, eyes);
    made.set(key, tables);
    return tables;
  };
}
