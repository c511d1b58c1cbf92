/** What a piece of an order text is, before the order of the pieces says what belongs together. */
export type ItemToken =
  | { readonly kind: 'number'; readonly number: number; readonly from: number; readonly to: number }
  /** Ten, dozen, hundred: multiplies the number before it. */
  | { readonly kind: 'unit'; readonly number: number; readonly from: number; readonly to: number }
  /** Numbers nobody can pack: zero, negative, decimal, beyond counting. */
  | { readonly kind: 'bad-number'; readonly from: number; readonly to: number }
  | { readonly kind: 'times'; readonly from: number; readonly to: number }
  | { readonly kind: 'name'; readonly name: string; readonly from: number; readonly to: number }
  | { readonly kind: 'word'; readonly from: number; readonly to: number }
  | { readonly kind: 'break'; readonly from: number; readonly to: number };

interface Atom {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

const atomPattern =
  /[-−]?\d+(?:[.,]\d+)+|[-−]?\d+|[x×](?=\s*\d)|\p{L}[\p{L}\p{M}]*(?:['’-]\p{L}[\p{L}\p{M}]*)*|\r?\n|[^\s]/giu;

const numberWords: Readonly<Record<string, number>> = {
  ...{
    a: 1,
    an: 1,
    one: 1,
    two: 2,
    three: 3,
    four: 4,
    five: 5,
    six: 6,
    seven: 7,
    eight: 8,
    nine: 9,
    eleven: 11,
    twelve: 12,
  },
  ...{ thirteen: 13, fourteen: 14, fifteen: 15, sixteen: 16, seventeen: 17, eighteen: 18, nineteen: 19, twenty: 20 },
  ...{ thirty: 30, forty: 40, fifty: 50, sixty: 60, seventy: 70, eighty: 80, ninety: 90 },
};
const units: Readonly<Record<string, number>> = { ten: 10, tens: 10, dozen: 12, dozens: 12, hundred: 100 };
/** Words that add nothing to "10 green", and the signs that people put between a name and its number. */
const silent = new Set([
  'of',
  'the',
  'shrimp',
  'shrimps',
  'animal',
  'animals',
  'pc',
  'pcs',
  'piece',
  'pieces',
  'portion',
  'portions',
]);
const silentSigns = new Set([':', '=', '(', ')', '-', '–', '—', '*', '•', '"', '“', '”']);
const breaks = new Set([',', ';', '+', '&', '/', '|', '.', '\n', '\r\n', 'and', 'plus']);

/** A word as it is compared: no case, no accents. */
const wordKey = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

const largest = 999_999;

function atomsOf(text: string): Atom[] {
  return [...text.matchAll(atomPattern)].map((found) => {
    // "orange-20" is a name, a dash and a number; only a sign with nothing before it makes a number negative.
    const glued = /^[-−]/.test(found[0]) && /[\p{L}\p{N})]/u.test(text.charAt(found.index - 1));
    const from = glued ? found.index + 1 : found.index;
    return { text: text.slice(from, found.index + found[0].length), from, to: found.index + found[0].length };
  });
}

/** The forms under which a word counts as the same: itself and its likely singulars. */
function forms(word: string): readonly string[] {
  const all = [word];
  if (word.length > 3 && word.endsWith('s')) all.push(word.slice(0, -1));
  if (word.length > 4 && word.endsWith('es')) all.push(word.slice(0, -2));
  if (word.length > 4 && word.endsWith('ies')) all.push(`${word.slice(0, -3)}y`);
  if (word.length > 4 && word.endsWith('ves')) all.push(`${word.slice(0, -3)}f`, `${word.slice(0, -3)}fe`);
  return all;
}

const sameWord = (a: string, b: string, exact: boolean): boolean =>
  exact ? a === b : forms(a).some((form) => forms(b).includes(form));

/** A name with its words, ready to be looked for. */
interface KnownName {
  readonly name: string;
  readonly words: readonly string[];
}

function nameAt(atoms: readonly Atom[], start: number, known: readonly KnownName[]): KnownName | undefined {
  const matches = (exact: boolean): KnownName | undefined =>
    known.find(({ words }) =>
      words.every((word, offset) => {
        const atom = atoms[start + offset];
        return atom !== undefined && sameWord(wordKey(atom.text), word, exact);
      }),
    );
  const [exact, loose] = [matches(true), matches(false)];
  return exact !== undefined && (loose === undefined || exact.words.length >= loose.words.length) ? exact : loose;
}

/** Splits an order text into its pieces, the longest known name first; words and signs that add nothing are left out. */
export function tokensOf(text: string, names: readonly string[]): ItemToken[] {
  const known = names
    .map((name) => ({ name, words: atomsOf(name).map((atom) => wordKey(atom.text)) }))
    .filter(({ words }) => words.length > 0)
    .sort((a, b) => b.words.length - a.words.length);
  const atoms = atomsOf(text);
  const tokens: ItemToken[] = [];
  for (let index = 0; index < atoms.length; index++) {
    const atom = atoms[index];
    if (atom === undefined) continue;
    const found = nameAt(atoms, index, known);
    const last = atoms[index + (found?.words.length ?? 1) - 1] ?? atom;
    if (found !== undefined) {
      tokens.push({ kind: 'name', name: found.name, from: atom.from, to: last.to });
      index += found.words.length - 1;
    } else {
      tokens.push(...tokenOf(atom));
    }
  }
  return tokens;
}

function tokenOf({ text, from, to }: Atom): ItemToken[] {
  const word = text === '\n' || text === '\r\n' ? '\n' : wordKey(text);
  if (breaks.has(word)) return [{ kind: 'break', from, to }];
  if (silent.has(word) || silentSigns.has(word)) return [];
  if (word === 'x' || word === '×') return [{ kind: 'times', from, to }];
  if (/^[-−]?\d/.test(word)) {
    const number = Number(word);
    return Number.isInteger(number) && number > 0 && number <= largest && /^\d+$/.test(word)
      ? [{ kind: 'number', number, from, to }]
      : [{ kind: 'bad-number', from, to }];
  }
  const said = Object.hasOwn(numberWords, word) ? numberWords[word] : undefined;
  if (said !== undefined) return [{ kind: 'number', number: said, from, to }];
  const unit = Object.hasOwn(units, word) ? units[word] : undefined;
  return unit === undefined ? [{ kind: 'word', from, to }] : [{ kind: 'unit', number: unit, from, to }];
}
