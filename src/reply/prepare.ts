import type { Mix } from '../domain/index.ts';
import { gramsWords } from './mix.ts';
import { counted, figure, litresWords, type Voice } from './voice.ts';

export interface WaterToPrepare {
  readonly rack: string;
  readonly litres: number;
  readonly buckets: number;
  readonly bucketLitres: number;
  readonly mix: Mix | null;
}

/** Racks on lines of their own; more are summed up. */
const mostRacks = 4;

/** "Rack A: 22 L (14.2 tap + 7.8 pure), 3 buckets of 10 L": a rack a line. */
export function waterLines(voice: Voice, water: readonly WaterToPrepare[]): string[] {
  const shown = water.slice(0, mostRacks).map((one) => waterLine(voice, one));
  const rest = water.slice(mostRacks).reduce((sum, { litres }) => sum + litres, 0);
  return rest > 0 ? [...shown, `Other racks: ${litresWords(voice, rest)}`] : shown;
}

/** Racks with a recipe of their own in a post. */
const mostRecipes = 2;

/** The same in a post: one line, "Water to prepare: 44 L (K 14 · M 22.5), 5 buckets", or a recipe a rack. */
export function waterShort(voice: Voice, water: readonly WaterToPrepare[]): string[] {
  const litres = water.reduce((sum, one) => sum + one.litres, 0);
  if (litres === 0) return [];
  if (water.some(({ mix }) => mix !== null) && water.length <= mostRecipes) return waterLines(voice, water);
  const racks =
    water.length < 2
      ? ''
      : ` (${water
          .slice(0, mostRacks)
          .map((one) => `${one.rack} ${figure(one.litres)}`)
          .join(' · ')})`;
  const buckets = water.reduce((sum, one) => sum + one.buckets, 0);
  return [`Water to prepare: ${litresWords(voice, litres)}${racks}, ${counted(buckets, 'bucket')}`];
}

const waterLine = (voice: Voice, { rack, litres, buckets, bucketLitres, mix }: WaterToPrepare): string =>
  `Rack ${rack}: ${litresWords(voice, litres)}${mix === null ? '' : ` (${mixWords(mix)})`}, ${counted(buckets, 'bucket')} of ${litresWords(voice, bucketLitres)}`;

/** "14.2 tap + 7.8 pure + 3.1 g salt". */
export const mixWords = ({ tapL, pureL, saltG }: Mix): string =>
  [
    ...(tapL > 0 ? [`${figure(tapL)} tap`] : []),
    ...(pureL > 0 ? [`${figure(pureL)} pure`] : []),
    ...(saltG > 0 ? [`${gramsWords(saltG)} salt`] : []),
  ].join(' + ');
