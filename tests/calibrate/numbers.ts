import type { Random } from '../../seed/random.ts';
import type { TrueTub } from './trueTub.ts';

/** What is true of all tubs of a house of this make. */
export interface Flow {
  /** Young that will grow up, each saleable animal a day when warm and alone. */
  readonly growUpPerDay: number;
  /** Saleable animals a litre at which none grow up any more. */
  readonly mostPerLitre: number;
  readonly deathPerDay: number;
  /** Days from hatching to saleable at 19 to 25 °C. */
  readonly lagDays: number;
}

export const anyFlow = (random: Random): Flow => ({
  growUpPerDay: random.between(0.04, 0.16),
  mostPerLitre: random.between(3, 8),
  deathPerDay: random.between(0.0015, 0.005),
  lagDays: random.whole(80, 130),
});

/**
 * A tub of another make: no animals and no stages, only numbers. As many grow up as there were parents a fixed time before, by warmth, room and a
 * mood of the tub that wanders; one in so many dies a day.
 */
export function openNumbers(flow: Flow, litres: number, random: Random): TrueTub {
  const growUpPerDay = flow.growUpPerDay * Math.exp(0.25 * random.normal());
  const most = flow.mostPerLitre * litres * Math.exp(0.2 * random.normal());
  let mood = 0;
  let saleable = Math.round(most * random.between(0.2, 0.9));
  const births = (tempC: number): number => {
    mood = 0.97 * mood + 0.08 * random.normal();
    const warm = Math.min(1, Math.max(0, (tempC - 17) / 6));
    return poisson(growUpPerDay * saleable * warm * Math.exp(mood) * Math.max(0, 1 - saleable / most), random);
  };
  const growing = Array.from({ length: flow.lagDays }, () => births(22));
  const growUp = (): void => {
    if (growing.length > 1) saleable += growing.shift() ?? 0;
  };
  return {
    live(tempC) {
      growing.push(births(tempC));
      const speed = tempC > 25 ? 2 : tempC < 19 ? random.whole(0, 1) : 1;
      for (let step = 0; step < speed; step++) growUp();
      let dead = 0;
      for (let one = 0; one < saleable; one++) if (random.happens(flow.deathPerDay)) dead++;
      saleable -= dead;
      return dead;
    },
    saleable: () => saleable,
    juveniles: () => growing.reduce((sum, young) => sum + young, 0),
    berried: () => Math.round(saleable * 0.15),
    take(number) {
      const taken = Math.min(number, saleable);
      saleable -= taken;
      return taken;
    },
    put(number) {
      saleable += number;
    },
  };
}

/** A number of events of which so many are expected. */
export function poisson(mean: number, random: Random): number {
  if (mean > 40) return Math.max(0, Math.round(mean + Math.sqrt(mean) * random.normal()));
  const stop = Math.exp(-mean);
  let number = 0;
  for (let product = random.next(); product > stop; product *= random.next()) number++;
  return number;
}
