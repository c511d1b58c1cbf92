import { unionisedShare } from '../water/ammonia.ts';
import { ammoniaMgNL } from './ammoniaBudget.ts';
import { type BagKind, filledBag } from './bag.ts';
import { breathedPh } from './carbonDioxide.ts';
import { type Course, courseOf, type Travel } from './course.ts';
import { mildFigures, strictFigures } from './figures.ts';
import { type Filling, fillingOf, fillStepL, leastFilling, mostBagL, waterInAllL } from './filling.ts';
import { oxygenAlong } from './oxygenBudget.ts';
import { leastBagL, type Practice, practiceOf } from './practice.ts';
import { type BagLimit, coldAfterHours, hotAfterHours, safeHoursOn } from './safeHours.ts';

/** What is to be packed. */
export interface BagQuestion extends Travel {
  readonly kind: BagKind;
  /** Whole, 1 and up. */
  readonly animals: number;
  /** Hours that the bags must last: transit, slack and delay, 1 to `horizonHours`. */
  readonly hours: number;
  /** Carbonate hardness of the water, °dKH; null: not known, so the fall of the pH is not told. */
  readonly khDkh: number | null;
}

/** The water of the fullest bag when its safe hours are over. */
export interface AtTheEnd {
  readonly oxygenMgL: number;
  /** Un-ionised ammonia at the pH of packing, mg N/L. */
  readonly nh3MgNL: number;
  /** What carbon dioxide is likely to make of the pH, and of the un-ionised ammonia with it; null where nobody can tell. */
  readonly breathed: { readonly ph: number; readonly nh3MgNL: number } | null;
}

/** The bags for a number of animals. */
export interface BagPlan {
  readonly question: BagQuestion;
  /** Whether the bags last the hours asked, the cold left aside. */
  readonly lasts: boolean;
  /** The bags, the fullest first; where nothing lasts, each animal alone in the most water. */
  readonly fillings: readonly Filling[];
  readonly waterL: number;
  /** Hours that are promised: those asked where the bags last them, and no more; else those that they do last. */
  readonly safeHours: number;
  /** What comes first in the fullest bag, or would with a step less water; null: nothing within the horizon. */
  readonly limit: BagLimit | null;
  /** Hours until the water is too hot or too cold, where that is within the hours asked. */
  readonly hotAfter: number | null;
  readonly coldAfter: number | null;
  readonly atTheEnd: AtTheEnd;
  /** Water of all bags by the mildest figures, L; null: not even by those anything lasts. */
  readonly mildWaterL: number | null;
  readonly practice: Practice;
}

/**
 * The bags with the least water that last the hours asked, by the strictest figures.
 *
 * Hotter, longer or more never is promised more hours, as no plan is promised more than was asked for. Longer animals, a hotter or a longer
 * way never take less water; one animal more may, by a step, where the number then shares itself better among the bags.
 */
export function planBags(question: BagQuestion): BagPlan {
  const { kind, animals, way, hours } = question;
  const strict = courseOf(question, strictFigures);
  const mild = courseOf(question, mildFigures);
  const found = leastFilling(kind, animals, strict, hours);
  const mildest = leastFilling(kind, animals, mild, hours);
  const fillings = found ?? [fillingOf(kind, animals, 1, mostBagL)];
  const lasting = fillings.map((filling) => safeHoursOn(filledBag(kind, filling.animals, filling.waterL), strict));
  const safeHours = Math.min(hours, ...lasting.map((bag) => bag.hours));
  const within = (after: number): number | null => (after < hours ? after : null);
  return {
    question,
    lasts: found !== null,
    fillings,
    waterL: waterInAllL(fillings),
    safeHours,
    limit: lasting[0]?.limit ?? tighterLimit(kind, fillings[0], strict),
    hotAfter: within(hotAfterHours(way)),
    coldAfter: within(coldAfterHours(way)),
    atTheEnd: endOf(question, fillings, strict, safeHours),
    mildWaterL: mildest === null ? null : waterInAllL(mildest),
    practice: practiceOf(kind, animals, { strict, mild }),
  };
}

/** What would come first in a bag with a step less water than it has; null: it has the least, or nothing would. */
const tighterLimit = (kind: BagKind, filling: Filling | undefined, course: Course): BagLimit | null =>
  filling === undefined || filling.waterL <= leastBagL
    ? null
    : safeHoursOn(filledBag(kind, filling.animals, filling.waterL - fillStepL), course).limit;

function endOf(question: BagQuestion, [fullest]: readonly Filling[], course: Course, hours: number): AtTheEnd {
  const last = Math.max(
    0,
    course.steps.findLastIndex((each) => each.hours <= hours),
  );
  const step = course.steps[last];
  if (step === undefined || fullest === undefined) throw new Error('a plan without bags or course');
  const { kind, ph, khDkh } = question;
  const bag = filledBag(kind, fullest.animals, fullest.waterL);
  const ammonia = ammoniaMgNL(bag, course.massG, step.ammoniaMgNG);
  const nh3At = (atPh: number): number => ammonia * unionisedShare(atPh, step.at.tempC);
  // A breathable bag lets carbon dioxide out.
  const lower =
    kind === 'breathable' || khDkh === null || khDkh <= 0
      ? null
      : breathedPh({
          ...{ ph, khDkh, tempC: step.at.tempC, waterL: bag.waterL, gasL: bag.gasL, ammoniaMgNL: ammonia },
          oxygenUsedMg: bag.animals * course.massG * step.oxygenUsedMgG,
        });
  return {
    oxygenMgL: oxygenAlong(bag, course, (then) => then.hours < step.hours)[1].mgL,
    nh3MgNL: nh3At(ph),
    breathed: lower === null || lower >= ph ? null : { ph: lower, nh3MgNL: nh3At(lower) },
  };
}
