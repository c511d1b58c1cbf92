import { fahrenheitOf, type Mended, type Refusal, type WaterValueName } from '../domain/index.ts';
import type { Card, Offer } from './card.ts';
import { figure, litresWords, shareWords, sinceWords, type Voice } from './voice.ts';
import { valueWords, withUnit } from './waterWords.ts';

type WaterRefusal = Extract<
  Refusal,
  {
    kind:
      | 'impossible-water'
      | 'ask-unlikely-water'
      | 'ask-swapped-water'
      | 'ask-changed-already'
      | 'ask-much-changed'
      | 'ask-which-amount'
      | 'change-logged-already';
  }
>;

export function waterRefusal(voice: Voice, refusal: WaterRefusal): Card {
  switch (refusal.kind) {
    case 'impossible-water':
      return impossible(voice, refusal);
    case 'ask-unlikely-water':
      return unlikely(voice, refusal);
    case 'ask-changed-already':
      return changedAlready(voice, refusal);
    case 'ask-swapped-water':
      return swapped(voice, refusal);
    case 'ask-much-changed':
      return muchChanged(voice, refusal);
    case 'ask-which-amount':
      return whichAmount(voice, refusal);
    case 'change-logged-already':
      return loggedAlready(voice, refusal);
  }
}

/** The value as typed, on the scale of the person's units. */
const typedWords = (voice: Voice, value: WaterValueName, typed: number): string =>
  value === 'tempC'
    ? `${figure(typed, 2)} ${voice.units === 'us' ? '°F' : '°C'}`
    : `${valueWords[value].name} ${figure(typed, 2)}`;

/** What a slip would make of it, in words. */
function guessWords(voice: Voice, value: WaterValueName, typed: number, slip: Mended): string {
  const { how } = slip;
  const right = withUnit(voice, value, slip.value);
  const scaled = figure(slip.meant ?? typed, 2);
  switch (how) {
    case 'fahrenheit':
      return `${scaled} °F would be ${right}`;
    case 'celsius':
      return `${scaled} °C would be ${right}`;
    case 'decimal':
      return `With a decimal point it is ${right}`;
    case 'ppm':
      return `${figure(typed, 2)} mg/L (ppm) of CaCO3 is ${right}`;
    case 'conductivity':
      return `${figure(typed, 2)} µS/cm is about ${right}`;
  }
}

/** The same entry with what was probably meant, each on a button. */
const mendOffers = (voice: Voice, value: WaterValueName, mended: readonly Mended[]): Offer[] =>
  mended.map(({ value: meant }, place) => {
    const patched = value === 'tempC' && voice.units === 'us' ? fahrenheitOf(meant) : meant;
    return {
      label: `Log ${withUnit(voice, value, meant)}`,
      patch: { [valueWords[value].option]: Number(patched.toFixed(2)) },
      tone: place === 0 ? 'main' : 'plain',
    };
  });

function impossible(voice: Voice, refusal: Extract<Refusal, { kind: 'impossible-water' }>): Card {
  const { value, typed, mended, tub, last } = refusal;
  const before =
    last === null ? [] : [`${tub} was ${withUnit(voice, value, last.value)} ${sinceWords(voice, last.at)}`];
  const title = `Not logged: ${typedWords(voice, value, typed)} cannot be right`;
  if (mended.length === 0) return { title, why: before, next: 'Measure again, or check the decimal point' };
  return {
    title,
    why: [...mended.map((slip) => guessWords(voice, value, typed, slip)), ...before],
    offers: mendOffers(voice, value, mended),
  };
}

function unlikely(voice: Voice, refusal: Extract<Refusal, { kind: 'ask-unlikely-water' }>): Card {
  const { value, typed, mended, tub, last } = refusal;
  const asTyped = typedWords(voice, value, typed);
  return {
    title: `Not logged yet: ${tub}, ${asTyped}?`,
    why: [
      ...(last === null
        ? [value === 'nitrateMgL' ? 'Your kit does not show so much' : 'Hardly any tub shows that']
        : [`${tub} was ${withUnit(voice, value, last.value)} ${sinceWords(voice, last.at)}`]),
      ...mended.slice(0, 2).map((slip) => guessWords(voice, value, typed, slip)),
    ],
    offers: [...mendOffers(voice, value, mended.slice(0, 2)), { label: `${asTyped} is right`, patch: { sure: true } }],
  };
}

function changedAlready(voice: Voice, refusal: Extract<Refusal, { kind: 'ask-changed-already' }>): Card {
  const { tub, litres, percent, togetherPercent, previous } = refusal;
  return {
    title: `${tub} was already changed ${sinceWords(voice, previous.at)}`,
    why: [
      `${previous.by} logged ${shareWords(voice, previous.litres, previous.percent)}`,
      `With these ${shareWords(voice, litres, percent)} the two swap ${togetherPercent} %`,
      'Not logged yet',
    ],
    offers: [
      { label: 'It was a second change', patch: { second: true, litres } },
      { label: 'It was a top-up', path: 'topup', patch: { tub, litres } },
    ],
  };
}

const loggedAlready = (
  voice: Voice,
  { tub, litres, at, by, loggedAt }: Extract<Refusal, { kind: 'change-logged-already' }>,
): Card => ({
  title: `Already logged by ${by}: ${tub}, ${litresWords(voice, litres)}`,
  why: [`For ${sinceWords(voice, at)}, logged ${sinceWords(voice, loggedAt)}`, 'Nothing was logged a second time'],
  next: 'If there was one more, log it with /change log',
});

function swapped(voice: Voice, { tub, temp, ph }: Extract<Refusal, { kind: 'ask-swapped-water' }>): Card {
  const degrees = `${figure(ph, 2)} ${voice.units === 'us' ? '°F' : '°C'}`;
  return {
    title: `Not logged: pH ${figure(ph, 2)} cannot be right`,
    why: [`Temperature ${figure(temp, 2)} and pH ${figure(ph, 2)} of ${tub} look swapped`],
    offers: [{ label: `Log ${degrees} and pH ${figure(temp, 2)}`, patch: { temp: ph, ph: temp }, tone: 'main' }],
  };
}

const muchChanged = (
  voice: Voice,
  { tub, litres, percent, netLitres }: Extract<Refusal, { kind: 'ask-much-changed' }>,
): Card => ({
  title: `Not logged yet: ${tub}, ${percent} % changed?`,
  why: [
    `${litresWords(voice, litres)} of ${litresWords(voice, netLitres)} net is more than half`,
    'So much at once is a shock for shrimp',
  ],
  offers: [{ label: `Yes, ${figure(litres)} L`, patch: { sure: true } }],
});

const whichAmount = (
  voice: Voice,
  { tub, litres, percent, netLitres }: Extract<Refusal, { kind: 'ask-which-amount' }>,
): Card => {
  const ofPercent = Math.round(netLitres * percent) / 100;
  return {
    title: `Not logged yet: ${figure(litres)} L or ${figure(percent)} % of ${tub}?`,
    why: [`${figure(percent)} % of ${litresWords(voice, netLitres)} net is ${litresWords(voice, ofPercent)}`],
    offers: [
      { label: `${figure(litres)} L`, patch: { litres, percent: null } },
      { label: `${figure(percent)} %, ${figure(ofPercent)} L`, patch: { litres: null, percent } },
    ],
  };
};
