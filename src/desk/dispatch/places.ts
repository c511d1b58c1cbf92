import { isRegion as isKnownRegion, regionCode, regionsLike } from '../../calendar/index.ts';
import {
  type Business,
  type Ends,
  fail,
  folded,
  ok,
  type Refusal,
  type Result,
  type Weather,
} from '../../domain/index.ts';

/** Where a parcel goes, as far as it is known. */
export interface Destination {
  readonly area: string | null;
  /** Region of public holidays; null: taken to be the sender's. */
  readonly region: string | null;
}

/** What people call the place that parcels leave from. */
export const homeArea = 'home';
const homeNames: readonly string[] = [homeArea, 'here', 'sender'];

/** Regions that parcels reach over water, by the codes of their public holidays. From memory, not complete. */
const overWater: readonly string[] = [
  ...['GB-NIR', 'IM', 'JE', 'GG', 'ES-CN', 'ES-IB', 'PT-20', 'PT-30', 'FR-MQ', 'FR-GP', 'FR-RE', 'IT-82', 'IT-88'],
  ...['US-HI', 'US-AK', 'US-PR', 'AU-TAS', 'CA-NL', 'CA-PE', 'FO', 'GL', 'AX'],
];

const islandWords = /\b(?:isle|isles|island|islands)\b/i;

const countryOf = (region: string): string => region.split('-')[0] ?? region;

/** Whether the parcel crosses a border; unknown places are taken to be at home. */
export const isAbroad = (business: Business, { region }: Destination): boolean =>
  business.region !== null && region !== null && countryOf(business.region) !== countryOf(region);

/** Whether the place is reached over water, by its region or by its own words. */
export const isIsland = (business: Business, { area, region }: Destination): boolean =>
  (region !== null && region !== business.region && overWater.includes(region)) || islandWords.test(area ?? '');

/** The name under which a place is kept: all names of the place that parcels leave from are one. */
export const placeName = (area: string): string => (homeNames.includes(folded(area)) ? homeArea : area.trim());

/** The places where the way of a parcel begins and ends. */
export const endsOf = ({ area }: Pick<Destination, 'area'>): Ends => ({
  from: homeArea,
  to: area === null || area.trim() === '' ? null : placeName(area),
});

/** The forecasts that tell of this parcel's way: those for the place it leaves from and for the place it goes to. */
export function onItsWay(weather: readonly Weather[], to: Pick<Destination, 'area'>): Weather[] {
  const { from, to: end } = endsOf(to);
  const ends = [from, end ?? from].map(folded);
  return weather
    .map((known) => ({ ...known, area: placeName(known.area) }))
    .filter(({ area }) => ends.includes(folded(area)));
}

/** The region that was typed, by its code ("gb-eng") or its name ("Scotland"), as it is stored. */
export function regionOf(typed: string): Result<string, Refusal> {
  const code = isKnownRegion(typed) ? regionCode(typed) : undefined;
  if (code !== undefined) return ok(code);
  const [like] = regionsLike(typed, 1);
  const said = typed.trim().toLowerCase();
  const name = like?.name.toLowerCase() ?? '';
  if (like !== undefined && said !== '' && (name === said || name.startsWith(`${said},`))) return ok(like.code);
  return fail({ kind: 'bad-words', what: 'region', typed, example: 'NL, GB-ENG or US-OR' });
}
