/** Layings that are looked at before the best one found is taken. */
const mostSteps = 10_000;

/**
 * Lays parcels into tubs so that as few as can be are caught from more than one: the sum over parcels of the tubs each is caught from, less
 * one, is least. Of layings alike in that the earlier tubs are filled first, as far as the search came upon it.
 *
 * Branch and bound over the parcels, the largest first: whole into each tub with room, or filling a tub up and going on with the rest.
 * That is enough to find the least: parcels that share tubs can be poured into them in any order, each tub full before the next. Exact
 * within ten thousand steps, which a dozen parcels of a few sizes stay far under; past them the best one found.
 * @param parcels whole animals each, 0 and up
 * @param rooms whole animals that each tub can give; together at least as many as the parcels
 * @returns for each parcel how many from each tub
 */
export function leastSplit(parcels: readonly number[], rooms: readonly number[]): number[][] {
  const order = parcels
    .map((number, index) => ({ number, index }))
    .filter(({ number }) => number > 0)
    .sort((a, b) => b.number - a.number || a.index - b.index);
  const left = [...rooms];
  const laid = parcels.map(() => rooms.map(() => 0));
  let best: number[][] = laid.map((row) => [...row]);
  let fewest = Number.POSITIVE_INFINITY;
  let steps = 0;

  /** Puts part of a parcel into a tub, looks on, and takes it out again. */
  const within = (parcel: number, tub: number, number: number, lookOn: () => void): void => {
    const row = laid[parcel] ?? [];
    left[tub] = (left[tub] ?? 0) - number;
    row[tub] = (row[tub] ?? 0) + number;
    lookOn();
    left[tub] = (left[tub] ?? 0) + number;
    row[tub] = (row[tub] ?? 0) - number;
  };

  const lay = (at: number, rest: number, splits: number): void => {
    steps += 1;
    if (splits >= fewest || (steps > mostSteps && fewest !== Number.POSITIVE_INFINITY)) return;
    const parcel = order[at];
    if (parcel === undefined) {
      fewest = splits;
      best = laid.map((row) => [...row]);
      return;
    }
    const next = order[at + 1]?.number ?? 0;
    const tried = new Set<number>();
    left.forEach((room, tub) => {
      if (room < rest || tried.has(room)) return;
      tried.add(room);
      within(parcel.index, tub, rest, () => lay(at + 1, next, splits));
    });
    left.forEach((room, tub) => {
      if (room === 0 || room >= rest || tried.has(room) || splits + 1 >= fewest) return;
      tried.add(room);
      within(parcel.index, tub, room, () => lay(at, rest - room, splits + 1));
    });
  };
  lay(0, order[0]?.number ?? 0, 0);
  return best;
}
