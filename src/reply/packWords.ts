import { type BagPlan, bagsInAll, type Filling, type LineBags, waterInAllL } from '../domain/index.ts';
import { counted, figure, listWords, tempWords, type Voice } from './voice.ts';

const litresPerFluidOunce = 0.0295735;

/** Rounded up, so that it never is less. */
const fluidOunces = (litres: number): number => Math.ceil(litres / litresPerFluidOunce - 1e-6);

/** Water in a bag: "0.45 L", in US units "16 fl oz". */
export const bagWaterWords = (voice: Voice, litres: number): string =>
  voice.units === 'us' ? `${fluidOunces(litres)} fl oz` : `${figure(litres, 2)} L`;

/** Water of all bags, the sum of what stands for each. */
export const waterInAllWords = (voice: Voice, fillings: readonly Filling[]): string =>
  voice.units === 'us'
    ? `${fillings.reduce((sum, { bags, waterL }) => sum + bags * fluidOunces(waterL), 0)} fl oz`
    : bagWaterWords(voice, waterInAllL(fillings));

/** "0.3–0.4 L", or "0.2 L" where both are the same. */
export function waterRangeWords(voice: Voice, fromL: number, toL: number): string {
  const [from, to] = [bagWaterWords(voice, fromL), bagWaterWords(voice, toL)];
  return from === to ? to : `${from.split(' ', 1)[0]}–${to}`;
}

/** "after 3 h", whole hours that are over by then. */
export const afterWords = (hours: number): string => (hours < 1 ? 'within the hour' : `after ${Math.floor(hours)} h`);

/** "10 in 0.45 L", "2 × 5 in 0.45 L and 1 × 4 in 0.4 L". */
export const fillingsWords = (voice: Voice, fillings: readonly Filling[]): string =>
  listWords(
    fillings.map(({ bags, animals, waterL }) => {
      const times = fillings.length === 1 && bags === 1 ? '' : `${bags} × `;
      return `${times}${animals} in ${bagWaterWords(voice, waterL)}`;
    }),
  );

/** Characters that a parcel's bags may take behind its number. */
const mostCharacters = 58;

/**
 * A parcel's bags as they stand behind its number: "12 in 0.5 L, for 72 h at 20 °C", or why there are none. What is too long for a line is
 * told line by line in sums, then in one.
 */
export function parcelBagsWords(voice: Voice, bags: readonly LineBags[]): string {
  const [first] = bags;
  if (first === undefined) return '';
  const bad = bags.map(({ plan }) => badWords(voice, plan)).find((words) => words !== null);
  if (typeof bad === 'string') return bad;
  const { hours } = first.plan.question;
  const warmestC = Math.max(...bags.map(({ plan }) => plan.question.way.warmC));
  const byLine = (words: (fillings: readonly Filling[]) => string): string =>
    bags.map(({ line, plan }) => `${bags.length === 1 ? '' : `${line} `}${words(plan.fillings)}`).join(' · ');
  const inSum = (fillings: readonly Filling[]): string =>
    `${counted(bagsInAll(fillings), 'bag')}, ${waterInAllWords(voice, fillings)}`;
  const each = [
    byLine((fillings) => fillingsWords(voice, fillings)),
    byLine(inSum),
    inSum(bags.flatMap(({ plan }) => plan.fillings)),
  ].map((words) => `${words}, for ${hours} h at ${tempWords(voice, warmestC)}`);
  return each.find((words) => words.length <= mostCharacters) ?? each.at(-1) ?? '';
}

/** Why animals should not go into a bag; null: they may. */
function badWords(voice: Voice, { question, hotAfter, coldAfter, lasts }: BagPlan): string | null {
  const { way, hours } = question;
  if (hotAfter !== null) return `too hot ${afterWords(hotAfter)} in air of ${tempWords(voice, way.warmC)}`;
  if (coldAfter !== null) return `too cold ${afterWords(coldAfter)} in air of ${tempWords(voice, way.coldC)}`;
  return lasts ? null : `none lasts ${hours} h at ${tempWords(voice, way.warmC)}`;
}
