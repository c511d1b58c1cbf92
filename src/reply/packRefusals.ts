import type { PackRefusal } from '../domain/index.ts';
import type { Card } from './card.ts';
import { takeTemp } from './pack.ts';
import { figure, tempWords, type Voice } from './voice.ts';

type Slip = NonNullable<PackRefusal['mended']>;

/** The unit that something was probably typed in; null: a decimal point was lost. */
const unitMeant: Readonly<Record<Slip['how'], string | null>> = {
  fahrenheit: '°F',
  celsius: '°C',
  centimetres: 'cm',
  inches: 'in',
  decimal: null,
  ppm: null,
  conductivity: null,
};

/** Why there is no bag plan, and what would make one. */
export function noPackCard(voice: Voice, { name, typed, min, max, mended }: PackRefusal): Card {
  const scale = voice.units === 'us' ? '°F' : '°C';
  const unit = { number: 'animals', 'length-mm': 'mm', hours: 'h', temp: scale }[name];
  const title = `Not planned: ${figure(typed, 2)} ${unit} cannot be right`;
  if (mended === null) {
    const range = name === 'temp' ? `${tempWords(voice, min)} to ${tempWords(voice, max)}` : `${min} to ${max} ${unit}`;
    return {
      title,
      why: [
        name === 'number'
          ? `One plan is for whole animals, ${min} to ${max}; split a larger number`
          : `It goes from ${range}`,
      ],
      next: 'Send it again with the right number',
    };
  }
  const meant = unitMeant[mended.how];
  const right = name === 'temp' ? tempWords(voice, mended.value) : `${mended.value} mm`;
  return {
    title,
    why: [meant === null ? `With a decimal point it is ${right}` : `${figure(typed, 2)} ${meant} would be ${right}`],
    offers: [
      name === 'temp'
        ? takeTemp(voice, mended.value)
        : { label: `Take ${right}`, patch: { 'length-mm': mended.value }, tone: 'main' },
    ],
  };
}
