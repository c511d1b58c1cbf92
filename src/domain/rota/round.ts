import type { Tub } from '../tub.ts';

/** A place at which one stops on the round: first what is about a whole rack, then its tubs, at the end what is about none. */
export type RoundStop =
  | { readonly of: 'rack'; readonly rack: string; readonly tubId: number }
  | { readonly of: 'tub'; readonly rack: string; readonly tubId: number }
  | { readonly of: 'business' };

/** All stops in the order of the round, by tubs in rack order. A rack goes by the id of its first tub. */
export const roundStops = (tubs: readonly Pick<Tub, 'id' | 'rack'>[]): RoundStop[] => [
  ...tubs.flatMap(({ id, rack }, index): RoundStop[] => {
    const tub: RoundStop = { of: 'tub', rack, tubId: id };
    const isFirst = tubs.findIndex((other) => other.rack === rack) === index;
    return isFirst ? [{ of: 'rack', rack, tubId: id }, tub] : [tub];
  }),
  { of: 'business' },
];

/** A stop in a word, as a control carries it: "r3", "t3", "b". */
export const stopKey = (stop: RoundStop): string =>
  stop.of === 'business' ? 'b' : `${stop.of.charAt(0)}${stop.tubId}`;

/** The first stop with open work from a place on; null: none is left after it. What is not known any more counts as the beginning. */
export function stopFrom(
  stops: readonly RoundStop[],
  place: { readonly at: string; readonly beyond: boolean } | null,
  isOpen: (stop: RoundStop) => boolean,
): RoundStop | null {
  const here = place === null ? -1 : stops.findIndex((stop) => stopKey(stop) === place.at);
  const from = here < 0 ? 0 : here + Number(place?.beyond === true);
  return stops.slice(from).find(isOpen) ?? null;
}
