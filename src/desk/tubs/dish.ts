import {
  asTubPrior,
  type CountLogged,
  dayMs,
  dishEstimate,
  dishPairs,
  dishPrior,
  dishRatio,
  plusMs,
  type Tub,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';
import { stepsSince } from './stock.ts';

/** How far back counts tell how many come to a dish. */
const backMs = 365 * dayMs;

/** What `seen` animals at the dish of a tub stand for, by its own pairs of counts and those of its line; null: none was seen. */
export function dishCount(desk: Desk, tub: Tub, seen: number): CountLogged['dish'] {
  const since = plusMs(desk.now(), -backMs);
  const pairsOf = ({ id }: Tub) => dishPairs(desk.store.animals.counts(id, since), stepsSince(desk, id, since));
  const others = tubsInUse(desk)
    .filter(({ id, lineId }) => lineId === tub.lineId && id !== tub.id)
    .flatMap(pairsOf);
  const prior = others.length === 0 ? dishPrior : asTubPrior(dishRatio(others));
  const ratio = dishRatio(pairsOf(tub), prior);
  const estimate = dishEstimate(ratio, seen);
  return estimate.ok ? { ...estimate.value, pairs: ratio.pairs } : null;
}
