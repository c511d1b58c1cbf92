import { folded, nearest, slipsBetween } from '../domain/index.ts';

/** Names one of whose words begins with what was typed ("moss" in "blue dream moss"). */
function withWord(typed: string, names: readonly string[]): string[] {
  const start = typed.trim().toLowerCase();
  if (start.length < 3) return [];
  return names.filter((name) =>
    name
      .toLowerCase()
      .split(/\s+/)
      .some((word) => word.startsWith(start)),
  );
}

/** Up to `most` of `names` that may have been meant by `typed`, by spelling first, then by one of their words. */
export const nearNames = (typed: string, names: readonly string[], most = 3): string[] =>
  typed.trim() === '' ? [] : [...new Set([...nearest(typed, names, most), ...withWord(typed, names)])].slice(0, most);

/** The one name that `typed` comes closer to than to every other, or null where none is near or two are equally near. */
export function bestGuess(typed: string, names: readonly string[]): string | null {
  const [first, second] = nearNames(typed, [...new Set(names)], 2);
  if (first === undefined || second === undefined) return first ?? null;
  return distance(typed, first) < distance(typed, second) ? first : null;
}

function distance(typed: string, name: string): number {
  const slips = slipsBetween(folded(typed), folded(name));
  return folded(name).startsWith(folded(typed)) ? Math.min(slips, 0.5) : slips;
}
