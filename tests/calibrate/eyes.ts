import type { Random } from '../../seed/random.ts';
import type { TypedCountMethod } from '../../src/domain/index.ts';
import type { TrueTub } from './trueTub.ts';

/** What a count found. */
export interface Found {
  readonly saleable: number;
  readonly juveniles: number | null;
  readonly berried: number | null;
}

/** A couple's eyes. */
export interface Eyes {
  count(tub: TrueTub, nth: number, method: TypedCountMethod): Found;
  /** Of the dead of a day, those that are found and logged. */
  findDead(dead: number): number;
  /** Of some animals, those that chance picks, each with this chance. */
  some(number: number, chance: number): number;
}

/**
 * Eyes drawn by chance: a full count misses up to 6 % and errs by 1 to 5 %; at the dish 28 to 60 % show and a visit differs from the next by 12 to 35 %;
 * a glance sees 25 to 75 %, give or take 20 to 50 %; tubs differ. Some couples count young too, and badly. Up to 30 % of the dead are found; one find in
 * twenty is not logged.
 */
export function openEyes(tubs: number, random: Random): Eyes {
  const misses = random.between(0, 0.06);
  const fullSd = random.between(0.01, 0.05);
  const view = {
    dish: { share: random.between(0.28, 0.6), sd: random.between(0.12, 0.35), tubSd: 0.15 },
    glance: { share: random.between(0.25, 0.75), sd: random.between(0.2, 0.5), tubSd: 0.2 },
  };
  const finds = random.between(0, 0.3);
  const countsYoung = random.happens(0.4);
  const sharesOf = ({ share, tubSd }: { share: number; tubSd: number }): number[] =>
    Array.from({ length: tubs }, () => share * Math.exp(tubSd * random.normal()));
  const shares = { dish: sharesOf(view.dish), glance: sharesOf(view.glance) };
  const some = (number: number, chance: number): number => {
    let picked = 0;
    for (let one = 0; one < number; one++) if (random.happens(chance)) picked++;
    return picked;
  };
  const seen = (number: number, nth: number, method: TypedCountMethod): number => {
    if (method === 'full') return Math.max(0, Math.round(some(number, 1 - misses) * (1 + fullSd * random.normal())));
    return some(number, Math.min(0.95, (shares[method][nth] ?? 0.4) * Math.exp(view[method].sd * random.normal())));
  };
  return {
    some,
    findDead: (dead) => (random.happens(0.05) ? 0 : some(dead, finds)),
    count(tub, nth, method) {
      const saleable = seen(tub.saleable(), nth, method);
      if (!countsYoung || random.happens(0.3)) return { saleable, juveniles: null, berried: null };
      const [young, berried] = method === 'full' ? [0.6, 0.8] : [0.25, 0.35];
      return {
        saleable,
        juveniles: Math.round(some(tub.juveniles(), young) * Math.exp(0.3 * random.normal())),
        berried: some(tub.berried(), berried),
      };
    },
  };
}
