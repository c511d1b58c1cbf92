import type { BeyondReason, FirstAidStep, MissingValue } from '../domain/index.ts';
import { listWords, litresWords, matchWords, mgLWords, tempWords, type Voice } from './voice.ts';

type Step<D extends FirstAidStep['do']> = Extract<FirstAidStep, { readonly do: D }>;

/** The steps of first aid in order, each with its reason, a line each. */
export const stepLines = (voice: Voice, steps: readonly FirstAidStep[]): string[] =>
  steps.map((step, index) => `${index + 1}. ${stepWords(voice, step)}`);

function stepWords(voice: Voice, step: FirstAidStep): string {
  switch (step.do) {
    case 'air':
      return airWords[step.why];
    case 'cool':
      return `Cool it slowly, shade and a fan, no ice: ${step.tempC === null ? 'heat takes the oxygen' : `it is ${tempWords(voice, step.tempC)}`}`;
    case 'warm':
      return `Warm the room slowly: it is ${step.tempC === null ? 'cold' : tempWords(voice, step.tempC)}, and they stop eating`;
    case 'take-out':
      return takeOutWords[step.what];
    case 'dechlorinate':
      return 'Dose dechlorinator for the whole tub: chlorine burns gills';
    case 'clear':
      return step.food
        ? 'Take out the dead and all food, feed nothing: they turn to ammonia'
        : 'Take out the dead, feed nothing: both turn to ammonia';
    case 'test':
      return `Test ${listWords(step.values.map((value) => missingNames[value]))}: not done today`;
    case 'change':
      return changeWords(voice, step);
    case 'no-change':
      return noChangeWords[step.why];
    case 'carbon':
      return `Fresh carbon in the filter: it takes up ${carbonWords[step.why]}`;
    case 'apart':
      return step.why === 'growths'
        ? 'Its own net and siphon, nothing to another tub: growths spread'
        : 'Its own net and cup: new animals may have brought something in';
    case 'spread':
      return `Move some lively ones to ${step.to}, of the same line`;
  }
}

const airWords: Record<Step<'air'>['why'], string> = {
  'no bubbles': 'Air back on now: no bubbles. Unplug before hands go in',
  air: 'See that the air runs: it had stopped. Unplug before hands go in',
  'at the surface': 'More air now: they are at the surface for oxygen',
  ammonia: 'More air now: ammonia harms the gills',
  nitrite: 'More air now: nitrite keeps the blood from carrying oxygen',
  heat: 'More air now: warm water holds less oxygen',
  always: 'More air: it harms nothing, and little oxygen kills first',
};

const takeOutWords: Record<Step<'take-out'>['what'], string> = {
  remedy: 'Dose no more of the remedy: copper and many medicines kill shrimp',
  metal: 'Take the metal out: copper and brass kill shrimp',
  plants: 'Take the new plants out: they may carry snail or insect killer',
  spray: 'Air the room, pump intake first: spray and paint reach the water',
};

const carbonWords: Record<Step<'carbon'>['why'], string> = {
  remedy: 'most medicines',
  metal: 'some of the copper',
  plants: 'what the plants brought',
  spray: 'what got into the water',
};

const missingNames: Record<MissingValue, string> = {
  ammoniaMgL: 'ammonia',
  nitriteMgL: 'nitrite',
  tempC: 'temperature',
  ph: 'pH',
  ghDgh: 'GH',
  tdsMgL: 'TDS',
};

const noChangeWords: Record<Step<'no-change'>['why'], string> = {
  minerals: 'No water change now: the last jump of minerals may be the cause',
  'changed today': 'No more water today: 25 % was changed within a day already',
  'water fine': 'No water change: ammonia and nitrite are fine',
};

const changeReasons: Record<Step<'change'>['why'], string> = {
  ammonia: 'ammonia',
  nitrite: 'nitrite',
  'some ammonia': 'ammonia',
  'some nitrite': 'nitrite',
  poison: 'a poison may be in it',
  untreated: 'the last water was untreated',
  'not known': 'the cause is not known',
};

const changeBounds: Record<NonNullable<Step<'change'>['bound']>, string> = {
  'a day': ', the most in a day',
  'changed today': ', some was changed today',
  minerals: ', else minerals jump',
};

function changeWords(voice: Voice, { litres, fraction, why, bound, mgL }: Step<'change'>): string {
  const percent = Math.round(100 * fraction);
  return `Change ${litresWords(voice, litres)} (${percent} %${bound === null ? '' : changeBounds[bound]}): ${changeReasons[why]}${mgL === null ? '' : ` ${mgLWords(mgL)}`}`;
}

/** How the new water is to be; none where nothing is changed. */
export const newWaterLines = (voice: Voice, steps: readonly FirstAidStep[]): string[] =>
  steps.some((step) => step.do === 'change')
    ? [`New water: treated, within ${matchWords(voice)}, in slowly; again after the next test`]
    : [];

const beyondWords: Record<BeyondReason, string> = {
  growths: 'growths',
  milky: 'milky bodies',
  remedy: 'a remedy in the water',
  'many dead': 'many dead with no cause found',
};

/** Where it is beyond husbandry: whom to ask, and what not to do. */
export const beyondLines = (beyond: readonly BeyondReason[]): string[] =>
  beyond.length === 0
    ? []
    : [
        `Beyond husbandry: ${listWords(beyond.map((reason) => beyondWords[reason]))}`,
        'Ask a vet or licensed practice; medicines are theirs to choose',
      ];

/** Water with what kills shrimp in it is not to reach others. */
export const poisonLines = (steps: readonly FirstAidStep[]): string[] =>
  steps.some((step) => step.do === 'take-out' && (step.what === 'remedy' || step.what === 'metal'))
    ? ['Its water goes to no other tub and not outdoors; copper stays in moss']
    : [];
