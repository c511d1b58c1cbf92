import type { Mix, MixFault, MixValueName, MixValues } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { figure, listWords, litresWords, matchWords, type Voice } from './voice.ts';

interface MixPrepared {
  readonly target: MixValues;
  readonly tap: MixValues;
  readonly mix: Mix;
}

const valueNames = ['ghDgh', 'khDkh', 'tdsMgL', 'nitrateMgL'] as const satisfies readonly MixValueName[];

/** How each value is called, its unit, its decimals, the option that asks for it and the setting that holds the tap's. */
const words: Readonly<
  Record<
    MixValueName,
    {
      readonly name: string;
      readonly unit: string;
      readonly decimals: 0 | 1;
      readonly option: string;
      readonly setting: string;
    }
  >
> = {
  ghDgh: { name: 'GH', unit: '°dGH', decimals: 1, option: 'gh', setting: 'source-gh' },
  khDkh: { name: 'KH', unit: '°dKH', decimals: 1, option: 'kh', setting: 'source-kh' },
  tdsMgL: { name: 'TDS', unit: 'mg/L', decimals: 0, option: 'tds', setting: 'source-tds' },
  nitrateMgL: { name: 'nitrate', unit: 'mg/L', decimals: 1, option: 'nitrate', setting: 'source-nitrate' },
};

const shown = (name: MixValueName, value: number): string =>
  `${figure(value, value >= 100 ? 0 : words[name].decimals)} ${words[name].unit}`;

const called = (names: readonly MixValueName[]): string => listWords(names.map((name) => words[name].name));

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "4.4 g", "0.17 g", from a kilogram up "1.25 kg". */
export const gramsWords = (grams: number): string =>
  grams >= 1000 ? `${figure(grams / 1000, 2)} kg` : `${figure(grams, grams < 1 ? 2 : 1)} g`;

/** The recipe, what decided it, and what else comes out. */
export function mixCard(voice: Voice, prepared: MixPrepared): Card {
  const { mix, tap } = prepared;
  const { tapL, saltG, misses } = mix;
  const unknown = valueNames.filter((name) => tap[name] === null);
  const salt = saltG > 0 ? [`with ${gramsWords(saltG)} of salt`] : [];
  return {
    title: misses.length > 0 ? `Nearest: ${waters(mix)}` : recipe(mix),
    why: [
      ...(misses.length > 0 ? salt : []),
      ...(voice.units === 'us' ? [inGallons(voice, mix)] : []),
      misses.length > 0 ? missedLine(mix) : decidedLine(prepared),
      `Gives ${givenWords(mix)}`,
      ...(unknown.length > 0 ? [`Not known of the tap: ${called(unknown)}`] : []),
    ],
    next: capital(
      [
        ...(saltG > 0 ? ['dissolve the salt'] : []),
        ...(tapL > 0 ? ['dechlorinate the tap water'] : []),
        `match the tub within ${matchWords(voice)}`,
      ].join('; '),
    ),
    controls: [[button('Next change', press('change-plan', {}))]],
  };
}

function waters({ tapL, pureL }: Mix): string {
  return [...(tapL > 0 ? [`${figure(tapL)} L tap`] : []), ...(pureL > 0 ? [`${figure(pureL)} L pure`] : [])].join(
    ' + ',
  );
}

function recipe(mix: Mix): string {
  if (mix.saltG > 0) return `${waters(mix)} + ${gramsWords(mix.saltG)} salt`;
  if (mix.pureL === 0) return `${waters(mix)}, no pure water needed`;
  return mix.tapL === 0 ? `${waters(mix)}, no tap water` : waters(mix);
}

const inGallons = (voice: Voice, { tapL, pureL }: Mix): string =>
  [
    ...(tapL > 0 ? [`tap ${litresWords(voice, tapL)}`] : []),
    ...(pureL > 0 ? [`pure ${litresWords(voice, pureL)}`] : []),
  ]
    .map((part, index) => (index === 0 ? capital(part) : part))
    .join(' · ');

function decidedLine({ mix, target, tap }: MixPrepared): string {
  const [first, ...others] = mix.decides;
  if (first === undefined) throw new Error('nothing decided a mix');
  if (first === 'nitrateMgL' && others.length > 0) return `Nitrate decides the tap water, ${called(others)} the salt`;
  if (others.length > 0) return `${capital(called(mix.decides))} decide together`;
  const atMost = first === 'nitrateMgL' ? 'at most ' : '';
  const { name } = words[first];
  return `${capital(name)} decides: ${atMost}${shown(first, target[first] ?? 0)} asked, ${shown(first, tap[first] ?? 0)} in the tap`;
}

function missedLine({ misses }: Mix): string {
  const each = misses.map(({ name, asked, comesOut }) => {
    const { name: word, decimals } = words[name];
    return `${word} ${figure(Math.abs(comesOut - asked), decimals)} ${comesOut < asked ? 'under' : 'over'}`;
  });
  return `${capital(each.join(', '))} what was asked`;
}

const givenWords = ({ comesOut }: Mix): string =>
  valueNames
    .flatMap((name) => {
      const value = comesOut[name];
      return value === null ? [] : [`${words[name].name} ${shown(name, value)}`];
    })
    .join(' · ');

type MixRefusal =
  | MixFault
  | {
      readonly kind: 'impossible-mix';
      readonly name: 'litres' | 'gh' | 'kh' | 'tds' | 'nitrate' | 'saltGh' | 'saltKh';
      readonly typed: number;
      readonly min: number;
      readonly max: number;
    };

const inputUnits = {
  litres: 'L',
  gh: '°dGH',
  kh: '°dKH',
  tds: 'mg/L TDS',
  nitrate: 'mg/L nitrate',
  saltGh: '°dGH of salt',
  saltKh: '°dKH of salt',
} as const;

/** Why there is no recipe, and what would make one. */
export function noMixCard(fault: MixRefusal): Card {
  switch (fault.kind) {
    case 'no-target':
      return { title: 'No recipe: nothing to aim at', next: 'Give gh, kh, tds or nitrate, or several of them' };
    case 'tap-unknown':
      return {
        title: `No recipe: tap ${called(fault.names)} not known`,
        why: ['A mix is reckoned from what the tap water holds'],
        next: `Measure, then /setup water ${fault.names.map((name) => words[name].setting).join(' ')}`,
      };
    case 'over-sources': {
      const { name, asked, most } = fault;
      const { option } = words[name];
      const saltOption = name === 'khDkh' ? 'salt-kh' : 'salt-gh';
      return {
        title: `No recipe: the tap has only ${shown(name, most)}`,
        why: [`${words[name].name} ${shown(name, asked)} was asked; pure water only lowers it`],
        next: `Give ${saltOption} from a mineral salt's label, or ask for less`,
        offers: [{ label: `Take ${shown(name, most)}`, patch: { [option]: most } }],
      };
    }
    case 'impossible-mix': {
      const { name, typed, min, max } = fault;
      return {
        title: `No recipe: ${figure(typed, 2)} ${inputUnits[name]} cannot be right`,
        why: [`It goes from ${figure(min, 1)} to ${figure(max, 1)}`],
        next: 'Send it again with the right number',
      };
    }
  }
}
