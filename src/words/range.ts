import { fail, mostTubName, ok, type Refusal, type Result } from '../domain/index.ts';

type BadNames = Extract<Refusal, { kind: 'bad-name' | 'bad-range' }>;

/** Tubs that may be named at once. */
export const maxNamesAtOnce = 80;

/**
 * The tub names meant by "A1-A6", "B 1 - 12", "A01-A12" (zeros kept), "A1,A2,A4", or one name, each once and in order; at
 * most 80. A space between one or two letters and the number goes ("B 1" is "B1"), after a longer word it stays ("Top 1").
 */
export function parseRange(text: string): Result<string[], BadNames> {
  const names = new Set<string>();
  for (const piece of text.split(/[,;\n+&]/).map((part) => part.replace(/\s+/g, ' ').trim())) {
    const found = piece === '' ? ok([]) : expand(piece);
    if (!found.ok) return found;
    for (const name of found.value) names.add(name);
    if (names.size > maxNamesAtOnce) return badRange(text.trim());
  }
  return names.size === 0 ? badName(text.trim()) : ok([...names]);
}

function expand(piece: string): Result<string[], BadNames> {
  const range = /^(.*?)( ?)(\d+) ?(?:-|–|—|\.\.\.?|to) ?(.*?) ?(\d+)$/i.exec(piece);
  if (range === null) {
    const name = piece.replace(/^(\p{L}{1,2}) (\d+)$/u, '$1$2');
    return isName(name) ? ok([name]) : badName(piece);
  }
  const [, prefix = '', typedGap = '', from = '', prefixAgain = '', to = ''] = range;
  if (prefixAgain !== '' && prefixAgain.toLowerCase() !== prefix.toLowerCase()) return badName(piece);
  const padded = from.startsWith('0') && from.length > 1;
  if (padded ? from.length !== to.length : to.length > 1 && to.startsWith('0')) return badName(piece);
  const [first, last] = [Number(from), Number(to)];
  if (last < first || last - first >= maxNamesAtOnce) return badRange(piece);
  const gap = /^\p{L}{1,2}$/u.test(prefix) ? '' : typedGap;
  const names = Array.from({ length: last - first + 1 }, (_, step) => {
    const number = String(first + step);
    return `${prefix}${gap}${padded ? number.padStart(from.length, '0') : number}`;
  });
  return names.every(isName) ? ok(names) : badName(piece);
}

const badName = (typed: string) => fail<BadNames>({ kind: 'bad-name', noun: 'tub', typed });

const badRange = (typed: string) => fail<BadNames>({ kind: 'bad-range', typed, most: maxNamesAtOnce });

const isName = (name: string): boolean =>
  name.length <= mostTubName && /^[\p{L}\p{N}][\p{L}\p{M}\p{N} ._'’#/-]*$/u.test(name);
