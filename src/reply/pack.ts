import {
  type BagPlan,
  bagsInAll,
  fahrenheitOf,
  horizonHours,
  hotAfterHours,
  leastBagL,
  leastWaterC,
  mostBagL,
  mostWaterC,
  type Packed,
  strictFigures,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card, type Offer } from './card.ts';
import { afterWords, bagWaterWords, fillingsWords, waterInAllWords, waterRangeWords } from './packWords.ts';
import { counted, figure, tempWords, type Voice } from './voice.ts';

/** A bag plan: how many bags with how much water, what ends their time, how far sources differ, common practice beside it. */
export function packCard(voice: Voice, packed: Packed): Card {
  const { plan } = packed;
  const list = button('Packing list', press('pack', {}));
  if (plan.hotAfter !== null) return { ...tooHot(voice, plan, plan.hotAfter), controls: [[list]] };
  if (plan.coldAfter !== null) return { ...tooCold(voice, packed, plan.coldAfter), controls: [[list]] };
  const controls = [[...readingButton(packed), otherBag(packed), list]];
  if (!plan.lasts) return { ...noneLasts(voice, packed), controls };
  const { animals, kind } = plan.question;
  return {
    title: `${animals} in ${bagsWords(voice, plan)}: safe for ${figure(plan.question.hours, 1)} h`,
    why: [decidesLine(voice, plan), groundsLine(voice, packed), sourcesLine(voice, plan), ...cautionLine(plan)],
    next: `Bag ${fillingsWords(voice, plan.fillings)}; ${kind === 'ordinary' ? 'air twice the water' : 'no air above it'}`,
    controls,
  };
}

/** "2 bags, 0.9 L". */
const bagsWords = (voice: Voice, { fillings }: BagPlan): string =>
  `${counted(bagsInAll(fillings), 'bag')}, ${waterInAllWords(voice, fillings)}`;

function decidesLine(voice: Voice, { limit, atTheEnd, question }: BagPlan): string {
  const { nh3MgNL, breathed, oxygenMgL } = atTheEnd;
  const { nh3MostMgNL, oxygenLeastMgL } = strictFigures;
  if (limit === 'ammonia') {
    const fall = breathed === null ? '' : ` (${figure(breathed.nh3MgNL, 3)} if CO2 makes pH ${figure(breathed.ph, 1)})`;
    return `Ammonia decides: NH3-N ${figure(nh3MgNL, 3)} of ${nh3MostMgNL} mg/L${fall}`;
  }
  if (limit === 'heat')
    return `Heat decides: ${tempWords(voice, mostWaterC)} ${afterWords(hotAfterHours(question.way))}`;
  return limit === 'oxygen'
    ? `Oxygen decides: ${figure(oxygenMgL, 1)} mg/L left, ${oxygenLeastMgL} at least; it gets in slowly`
    : `Nothing runs out in 7 days; ${bagWaterWords(voice, leastBagL)} is the least in a bag`;
}

/** What the plan was reckoned with, and what of it nobody said or measured. */
function groundsLine(voice: Voice, { plan, untold, measured }: Packed): string {
  const { hours, way, ph, lengthMm } = plan.question;
  const air = tempWords(voice, way.warmC);
  const tubs = measured.tempC ? `${air} as the tubs` : `${air} taken`;
  const grounds = [
    ...(untold.includes('hours') ? [`${figure(hours)} h: transit, slack, a day late`] : []),
    untold.includes('temperature') ? tubs : `air ${air}`,
    `pH ${figure(ph)}${measured.ph ? '' : ' taken'}`,
    `${figure(lengthMm)} mm`,
  ].join('; ');
  return `${grounds.charAt(0).toUpperCase()}${grounds.slice(1)}`;
}

function sourcesLine(voice: Voice, { waterL, mildWaterL, practice }: BagPlan): string {
  const { fromL, toL, fromHours, toHours } = practice;
  const [from, to] = [Math.floor(fromHours), toHours >= horizonHours ? `${horizonHours}+` : `${Math.floor(toHours)}`];
  const sources =
    mildWaterL === null || mildWaterL >= waterL
      ? `Sources agree on ${bagWaterWords(voice, waterL)}`
      : `Sources differ: ${waterRangeWords(voice, mildWaterL, waterL)}`;
  return `${sources}; common practice ${waterRangeWords(voice, fromL, toL)}, ${from >= Math.floor(toHours) ? '' : `${from}–`}${to} h`;
}

/** What matters most with these bags; a heat pack has its word where it is cold. */
function cautionLine({ limit, question: { kind, hours } }: BagPlan): string[] {
  if (kind === 'breathable') return ['It breathes through its film: paper between bags, never one in another'];
  if (limit === 'oxygen') return ['Pure oxygen would do more, but is for trained people only'];
  return hours >= 48 ? ['Pump no air into a bag closed for days: the pH rises, ammonia harms'] : [];
}

function tooHot(voice: Voice, { question: { animals, way } }: BagPlan, hotAfter: number): Card {
  return {
    title: `${counted(animals, 'shrimp', 'shrimp')}: too hot ${afterWords(hotAfter)}`,
    why: [
      `Over ${tempWords(voice, mostWaterC)} by then in air of ${tempWords(voice, way.warmC)}, packed at ${tempWords(voice, way.startC)}`,
      'A small box follows the air within hours; more water does not help',
      'A cool pack, wrapped, puts it off by hours, not by days',
    ],
    next: 'Wait for cooler days',
  };
}

function tooCold(voice: Voice, { plan, slip }: Packed, coldAfter: number): Card {
  const { animals, way, hours } = plan.question;
  const meant = slip === null ? null : tempWords(voice, slip.value);
  return {
    title: `${counted(animals, 'shrimp', 'shrimp')}: too cold ${afterWords(coldAfter)}`,
    why: [
      `Under ${tempWords(voice, leastWaterC)} by then in air of ${tempWords(voice, way.coldC)}, packed at ${tempWords(voice, way.startC)}`,
      plan.lasts
        ? `But for the cold ${bagsWords(voice, plan)} would last ${figure(hours)} h`
        : `And no bag lasts ${figure(hours)} h`,
      'A heat pack goes on the lid, wrapped, and never touches a bag',
      ...(meant === null || slip === null ? [] : [`${figure(slip.value)} °C would be ${meant}`]),
    ],
    next: 'Wait for milder days, or pack against the cold',
    ...(slip !== null && { offers: [takeTemp(voice, slip.value)] }),
  };
}

function noneLasts(voice: Voice, packed: Packed): Card {
  const { plan } = packed;
  const { animals, hours } = plan.question;
  const alone = `Even one alone in ${bagWaterWords(voice, mostBagL)} lasts ${Math.floor(plan.safeHours)} h`;
  const decides = plan.limit === null ? '' : `; ${plan.limit} decides`;
  const mildest =
    plan.mildWaterL === null
      ? 'Not by the mildest sources either'
      : `By the mildest sources ${bagWaterWords(voice, plan.mildWaterL)} would last`;
  return {
    title: `${counted(animals, 'shrimp', 'shrimp')}: no bag lasts ${figure(hours)} h`,
    why:
      hours > horizonHours
        ? [`Bags are reckoned for ${horizonHours} h, 7 days, at most`, groundsLine(voice, packed)]
        : [`${alone}${decides}`, groundsLine(voice, packed), mildest],
    next: 'Send by a faster service, or on cooler days',
  };
}

/** The air as it was meant, on the scale of the person's units. */
export function takeTemp(voice: Voice, tempC: number): Offer {
  const typed = voice.units === 'us' ? fahrenheitOf(tempC) : tempC;
  return { label: `Take ${tempWords(voice, tempC)}`, patch: { temp: Number(typed.toFixed(2)) }, tone: 'main' };
}

/** A pH that nobody measured makes the plan stricter than it may need to be. */
const readingButton = ({ measured }: Packed): Button[] =>
  measured.ph ? [] : [button('Log a reading', press('pick-tub', { purpose: 'reading' }), 'main')];

/** The same plan in the other kind of bag; what was not said stays unsaid. */
function otherBag({ plan: { question }, untold }: Packed): Button {
  const { kind, animals, lengthMm, hours, way } = question;
  const told = (what: Packed['untold'][number], value: number): string => (untold.includes(what) ? '' : String(value));
  const figures = {
    number: animals,
    mm: told('length', lengthMm),
    hours: told('hours', hours),
    airC: told('temperature', way.warmC),
  };
  return kind === 'ordinary'
    ? button('Breathable bag', press('bag-plan', { ...figures, bag: 'breathable' }))
    : button('Ordinary bag', press('bag-plan', { ...figures, bag: 'ordinary' }));
}
