import type { Random } from '../../seed/random.ts';
import type { TrueTub } from './trueTub.ts';

/** What the animals of a house are truly like. */
export interface Nature {
  /** Growth towards the full length, share a day at 24 °C. */
  readonly growthPerDay: number;
  readonly youngHazard: number;
  /** Times the usual hazard of grown animals. */
  readonly grownHazard: number;
  /** Load a litre at which crowding doubles the time to grow. */
  readonly roomPerLitre: number;
  readonly squeeze: number;
  /** Young a brood for each mm over 10.5. */
  readonly youngPerMm: number;
  readonly restDays: number;
  readonly breedsFromC: number;
  /** Temperature at which as many males as females grow up. */
  readonly evenSexesC: number;
  /** Animals that jump or vanish, share a day; nobody logs them. */
  readonly vanishPerDay: number;
}

export function anyNature(random: Random): Nature {
  const about = (median: number, logSd: number): number => median * Math.exp(logSd * random.normal());
  return {
    growthPerDay: about(0.0135, 0.2),
    youngHazard: about(0.0085, 0.4),
    grownHazard: about(1, 0.35),
    roomPerLitre: about(6.5, 0.35),
    squeeze: random.between(1.3, 2.5),
    youngPerMm: about(3.1, 0.2),
    restDays: about(12, 0.3),
    breedsFromC: 18 + 0.8 * random.normal(),
    evenSexesC: 23 + random.normal(),
    vanishPerDay: random.between(0, 0.1) / 365,
  };
}

const [undecided, female, male] = [0, 1, 2];
const hatchMm = 2.4;
const sexDays = 25;
const maturesMm = 14.5;
/** Degree-days over 13.3 °C that a brood is carried. */
const [broodDegreeDays, broodZeroC] = [225, 13.3];
/** Length from which a young animal is called a juvenile, mm. */
const juvenileMm = 7;

/** Lists of numbers, one entry an animal. */
const lists = ['mm', 'mostMm', 'days', 'sex', 'brood'] as const;

/**
 * A tub whose animals are followed one by one: each has its own length, age, sex and brood. They grow by length towards their own full length, faster
 * when warm, slower when crowded by the area they take; die by length and by age (Gompertz); carry broods by degree-days, rest, and spawn when warm.
 */
export function openAnimals(nature: Nature, litres: number, saleableMm: number, random: Random): TrueTub {
  const of: Record<(typeof lists)[number], number[]> = { mm: [], mostMm: [], days: [], sex: [], brood: [] };
  const ownGrowth = Math.exp(0.1 * random.normal());
  const ownYoungHazard = Math.exp(0.25 * random.normal());

  const add = (mm: number, days: number, sex: number): void => {
    of.mm.push(mm);
    of.mostMm.push(23.5 + 1.3 * random.normal() - (sex === male ? 2 : 0));
    of.days.push(days);
    of.sex.push(sex);
    of.brood.push(-random.between(0, nature.restDays * 2));
  };
  const remove = (nth: number): void => {
    for (const list of lists) {
      const last = of[list].pop();
      if (nth < of[list].length && last !== undefined) of[list][nth] = last;
    }
  };
  const mmOf = (nth: number): number => of.mm[nth] ?? 0;
  const isGrown = (nth: number): boolean => mmOf(nth) >= saleableMm;
  const isBerried = (nth: number): boolean => of.sex[nth] === female && (of.brood[nth] ?? 0) > 0;
  const countOf = (is: (nth: number) => boolean): number => {
    let count = 0;
    for (let nth = 0; nth < of.mm.length; nth++) if (is(nth)) count++;
    return count;
  };

  /** One female's day; the young that hatch. */
  const carry = (nth: number, tempC: number): number => {
    const brood = of.brood[nth] ?? 0;
    const isWarm = tempC > nature.breedsFromC;
    if (brood < 0) of.brood[nth] = isWarm ? Math.min(0, brood + 1) : brood;
    else if (brood === 0) of.brood[nth] = isWarm && random.happens(0.35) ? 0.01 : 0;
    else if (tempC > 31) of.brood[nth] = -nature.restDays;
    else of.brood[nth] = brood + Math.max(0, tempC - broodZeroC);
    if ((of.brood[nth] ?? 0) < broodDegreeDays) return 0;
    of.brood[nth] = -nature.restDays * random.between(0.6, 1.4);
    if (random.happens(0.1)) return 0;
    return Math.max(0, Math.round(nature.youngPerMm * (mmOf(nth) - 10.5) * (1 + 0.25 * random.normal())));
  };

  return {
    live(tempC) {
      const warm = tempC > 13 ? ((Math.min(tempC, 28) - 13) / 11) ** 1.1 - 0.1 * Math.max(0, tempC - 28) : 0;
      const load = of.mm.reduce((sum, mm) => sum + (mm / 18) ** 2, 0);
      const crowded = (load / litres / nature.roomPerLitre) ** nature.squeeze;
      const pace = (nature.growthPerDay * ownGrowth * Math.max(0, warm)) / (1 + crowded);
      const strain = 1 + 0.2 * Math.max(0, 13 - tempC) + 0.5 * Math.max(0, tempC - 28);
      const youngRisk = nature.youngHazard * ownYoungHazard * strain * (1 + 2 * crowded);
      const grownRisk = nature.grownHazard * strain * (1 + 0.25 * crowded) * 0.0009;
      let [dead, born] = [0, 0];
      for (let nth = of.mm.length - 1; nth >= 0; nth--) {
        const mm = mmOf(nth);
        const days = (of.days[nth] ?? 0) + 1;
        of.days[nth] = days;
        const ageing = 1 + Math.exp((days - 380) / 110);
        const risk = mm < 12 ? youngRisk * (mm < 5 ? 2 : 0.8) : grownRisk * ageing + nature.vanishPerDay;
        if (random.happens(risk)) {
          if (isGrown(nth)) dead++;
          remove(nth);
          continue;
        }
        of.mm[nth] = mm + pace * ((of.mostMm[nth] ?? 0) - mm) * random.between(0.5, 1.5);
        if (of.sex[nth] === undecided && days > sexDays) {
          const isFemale = random.happens(1 / (1 + Math.exp(0.35 * (tempC - nature.evenSexesC))));
          of.sex[nth] = isFemale ? female : male;
          if (!isFemale) of.mostMm[nth] = (of.mostMm[nth] ?? 0) - 2;
        }
        if (of.sex[nth] === female && mm >= maturesMm) born += carry(nth, tempC);
      }
      // The first days decide: those that do not live through them are not followed at all.
      for (let young = 0; young < born; young++) {
        if (random.happens(0.85 / (1 + 0.6 * crowded))) add(hatchMm, 0, undecided);
      }
      return dead;
    },
    saleable: () => countOf(isGrown),
    juveniles: () => countOf((nth) => !isGrown(nth) && mmOf(nth) > juvenileMm),
    berried: () => countOf(isBerried),
    take(number, sparesBerried) {
      let taken = 0;
      for (const berriedToo of sparesBerried ? [false, true] : [true]) {
        const first = random.whole(0, Math.max(0, of.mm.length - 1));
        for (let step = of.mm.length - 1; step >= 0 && taken < number; step--) {
          const nth = (step + first) % Math.max(1, of.mm.length);
          if (!isGrown(nth) || (!berriedToo && isBerried(nth))) continue;
          remove(nth);
          taken++;
        }
      }
      return taken;
    },
    put(number) {
      for (let one = 0; one < number; one++) {
        add(
          random.between(Math.max(15, saleableMm), 21),
          random.between(80, 250),
          random.happens(0.53) ? female : male,
        );
      }
    },
  };
}
