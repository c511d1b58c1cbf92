import Holidays from 'date-holidays';

/** A place with public holidays of its own: `NL`, `GB-ENG`, `US-OR`, `AT-9`. */
export interface Region {
  readonly code: string;
  /** Its name in English, the country last ("England, United Kingdom"). */
  readonly name: string;
}

/** The parts of a code as the library spells them. */
export interface RegionParts {
  readonly country: string;
  readonly state: string | null;
  readonly region: string | null;
}

const library = new Holidays();
const alsoCalled: Readonly<Record<string, string>> = { UK: 'GB' };

const spelt = (code: string, known: Readonly<Record<string, string>> | undefined): string | undefined =>
  Object.keys(known ?? {}).find((key) => key.toUpperCase() === code);

const partsByText = new Map<string, RegionParts | undefined>();

/** The parts of the region that `text` names by its code, in any case; undefined where there is none. */
export function regionParts(text: string): RegionParts | undefined {
  if (partsByText.has(text)) return partsByText.get(text);
  const parts = lookUp(text);
  if (partsByText.size < 1000) partsByText.set(text, parts);
  return parts;
}

function lookUp(text: string): RegionParts | undefined {
  const [first = '', second, third, ...more] = text.trim().toUpperCase().split('-');
  const country = spelt(alsoCalled[first] ?? first, library.getCountries('en'));
  if (country === undefined || more.length > 0) return undefined;
  if (second === undefined) return { country, state: null, region: null };
  const state = spelt(second, library.getStates(country, 'en'));
  if (state === undefined) return undefined;
  if (third === undefined) return { country, state, region: null };
  const region = spelt(third, library.getRegions(country, state, 'en'));
  return region === undefined ? undefined : { country, state, region };
}

/** The code of the region that `text` names, as it is stored (`gb-eng` → `GB-ENG`); undefined where there is none. */
export function regionCode(text: string): string | undefined {
  const parts = regionParts(text);
  return parts === undefined
    ? undefined
    : [parts.country, parts.state, parts.region].filter((part) => part !== null).join('-');
}

/** Whether `text` is the code of a region whose public holidays are known. */
export const isRegion = (text: string): boolean => regionParts(text) !== undefined;

let everyRegion: readonly Region[] | undefined;

function allRegions(): readonly Region[] {
  everyRegion ??= Object.entries(library.getCountries('en')).flatMap(([country, countryName]) => [
    { code: country, name: countryName },
    ...Object.entries(library.getStates(country, 'en') ?? {}).map(([state, stateName]) => ({
      code: `${country}-${state}`,
      name: `${stateName}, ${countryName}`,
    })),
  ]);
  return everyRegion;
}

/** Regions that may be meant by a name or the beginning of a code ("scotland", "us-o"), likeliest first, at most `max`. */
export function regionsLike(text: string, max = 5): Region[] {
  const typed = text.trim().toLowerCase();
  if (typed === '') return [];
  const code = (alsoCalled[typed.toUpperCase()] ?? typed).toLowerCase();
  const rank = (region: Region): number => {
    const name = region.name.toLowerCase();
    if (region.code.toLowerCase() === code) return 0;
    if (name === typed || name.startsWith(`${typed},`)) return 1;
    if (name.startsWith(typed)) return 2;
    if (region.code.toLowerCase().startsWith(code)) return 3;
    return name.split(/[\s,]+/).some((word) => word.startsWith(typed)) ? 4 : 5;
  };
  return allRegions()
    .map((region) => ({ region, rank: rank(region) }))
    .filter((found) => found.rank < 5)
    .sort((a, b) => a.rank - b.rank)
    .slice(0, max)
    .map((found) => found.region);
}
