import { animalsPerLitre, type SpareTub } from '../../src/domain/index.ts';

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);

/** Every set of tubs, counted out: of the smallest that have enough, the one that is most crowded read from its most crowded tub on. */
export function mostCrowdedFewest(number: number, tubs: readonly SpareTub[]): SpareTub[] {
  let best: SpareTub[] | undefined;
  for (let set = 0; set < 2 ** tubs.length; set++) {
    const chosen = tubs
      .filter((_, index) => (set >> index) % 2 === 1)
      .sort((a, b) => animalsPerLitre(b) - animalsPerLitre(a));
    if (chosen.some(({ spare }) => spare <= 0) || sum(chosen.map(({ spare }) => spare)) < number) continue;
    if (best === undefined || chosen.length < best.length || (chosen.length === best.length && isAhead(chosen, best))) {
      best = chosen;
    }
  }
  if (best === undefined) throw new Error(`no tubs have ${number}`);
  return best;
}

function isAhead(a: readonly SpareTub[], b: readonly SpareTub[]): boolean {
  for (const [index, tub] of a.entries()) {
    const other = b[index];
    if (other !== undefined && animalsPerLitre(tub) !== animalsPerLitre(other))
      return animalsPerLitre(tub) > animalsPerLitre(other);
  }
  return false;
}

/** Every laying of parcels into tubs, animal by animal, counted out: the fewest times that a parcel is caught from one tub more. */
export function fewestSplits(parcels: readonly number[], rooms: readonly number[]): number {
  const [first, ...others] = parcels;
  if (first === undefined) return 0;
  let fewest = Number.POSITIVE_INFINITY;
  for (const parts of layings(first, rooms)) {
    const left = rooms.map((room, index) => room - (parts[index] ?? 0));
    const splits = parts.filter((part) => part > 0).length - 1;
    fewest = Math.min(fewest, splits + fewestSplits(others, left));
  }
  return fewest;
}

/** Every way to take a number from the rooms. */
function layings(number: number, rooms: readonly number[]): number[][] {
  const [room, ...others] = rooms;
  if (room === undefined) return number === 0 ? [[]] : [];
  const found: number[][] = [];
  for (let part = 0; part <= Math.min(number, room); part++) {
    for (const rest of layings(number - part, others)) found.push([part, ...rest]);
  }
  return found;
}
