import type { Cloud } from './cloud.ts';
import { type ReadInterval, readInterval } from './interval.ts';
import { chanceTable, sights, tableIndex } from './sight.ts';

/** What would have happened to a truth that nobody logged: its nitrate after it, mg/L. */
export type Happening = (levelMgL: number) => number;

/** The chances of readings that a cloud foretells; slips left out. */
export interface Foretold {
  /** Chance of this reading, were this to have happened. */
  chanceOf(typedMgL: number, happened?: Happening): number;
  /** Chance of a reading as low as this or lower, and as high or higher. */
  tailsOf(typedMgL: number): { readonly asLow: number; readonly asHigh: number };
}

const nothing: Happening = (levelMgL) => levelMgL;

/** Prepares a cloud to be asked about many readings and happenings. */
export function foretell({ levelMgL, weights }: Cloud, kitStepsMgL: readonly number[]): Foretold {
  const made = new Map<string, readonly Float64Array[]>();
  const tablesOf = (interval: ReadInterval): readonly Float64Array[] => {
    const key = `${interval.lowMgL} ${interval.highMgL} ${interval.isStep}`;
    const tables = made.get(key) ?? sights.map((eye) => chanceTable(interval, eye));
    made.set(key, tables);
    return tables;
  };
  const seenIn = (interval: ReadInterval, happened: Happening): number => {
    const tables = tablesOf(interval);
    let chance = 0;
    for (let cell = 0; cell < levelMgL.length; cell++) {
      const place = tableIndex(Math.max(0, happened(levelMgL[cell] ?? 0)));
      for (let sight = 0; sight < weights.length; sight++) {
        chance += (weights[sight]?.[cell] ?? 0) * (tables[sight]?.[place] ?? 0);
      }
    }
    return chance;
  };
  return {
    chanceOf: (typedMgL, happened = nothing) => seenIn(readInterval(typedMgL, kitStepsMgL), happened),
    tailsOf: (typedMgL) => {
      const interval = readInterval(typedMgL, kitStepsMgL);
      return {
        asLow: seenIn({ ...interval, lowMgL: 0 }, nothing),
        asHigh: seenIn({ ...interval, highMgL: Number.POSITIVE_INFINITY }, nothing),
      };
    },
  };
}
