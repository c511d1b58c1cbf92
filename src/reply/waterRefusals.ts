import { fahrenheitOf, type Refusal } from '../domain/index.ts';
import type { Card } from './card.ts';
import { figure, shareWords, sinceWords, type Voice } from './voice.ts';
import { valueWords, withUnit } from './waterWords.ts';

type WaterRefusal = Extract<Refusal, { kind: 'impossible-water' | 'ask-changed-already' }>;

export function waterRefusal(voice: Voice, refusal: WaterRefusal): Card {
  return refusal.kind === 'impossible-water' ? impossible(voice, refusal) : changedAlready(voice, refusal);
}

function impossible(voice: Voice, refusal: Extract<Refusal, { kind: 'impossible-water' }>): Card {
  const { value, typed, mended, tub, last } = refusal;
  const scale = voice.units === 'us' ? '°F' : '°C';
  const shown = value === 'tempC' ? `${figure(typed, 2)} ${scale}` : `${valueWords[value].name} ${figure(typed, 2)}`;
  const before =
    last === null ? [] : [`${tub} was ${withUnit(voice, value, last.value)} ${sinceWords(voice, last.at)}`];
  if (mended === null) {
    return {
      title: `Not logged: ${shown} cannot be right`,
      why: before,
      next: 'Measure again, or check the decimal point',
    };
  }
  const right = withUnit(voice, value, mended.value);
  const guess = {
    fahrenheit: `${figure(typed, 2)} °F would be ${right}`,
    celsius: `${figure(typed, 2)} °C would be ${right}`,
    decimal: `With a decimal point it is ${right}`,
  }[mended.how];
  const patched = value === 'tempC' && voice.units === 'us' ? fahrenheitOf(mended.value) : mended.value;
  return {
    title: `Not logged: ${shown} cannot be right`,
    why: [guess, ...before],
    offers: [
      { label: `Log ${right}`, patch: { [valueWords[value].option]: Number(patched.toFixed(2)) }, tone: 'main' },
    ],
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
