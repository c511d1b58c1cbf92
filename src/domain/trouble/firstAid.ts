import type { WaterValueName } from '../tub.ts';
import type { MovedWater } from '../water/jump.ts';
import type { Finding } from '../water/verdict.ts';
import { type FirstChange, type FirstChangeReason, firstChange } from './firstChange.ts';
import type { ChangedThing, SeenThing, Troubled } from './trouble.ts';

/** What first aid follows from. */
export interface FirstAidQuestion extends Troubled {
  /** What was measured within the last 72 hours, judged. */
  readonly findings: readonly Finding[];
  /** What of it was measured within the last day: the rest is tested again. */
  readonly fresh: readonly Finding['of'][];
  readonly netLitres: number;
  /** Share of the net volume swapped within the last day. */
  readonly swapped: number;
  /** Changes that were logged within the last 72 hours. */
  readonly changesLogged: number;
  readonly water: { readonly tub: MovedWater; readonly source: MovedWater };
  /** Other tubs of the same line that are not off sale themselves. */
  readonly sameLine: readonly string[];
}

export type AirReason = 'no bubbles' | 'at the surface' | 'air' | 'ammonia' | 'nitrite' | 'heat' | 'always';
export type PoisonSource = Extract<ChangedThing, 'plants' | 'remedy' | 'metal' | 'spray'>;
export type NoChangeReason = 'minerals' | 'changed today' | 'water fine';
export type MissingValue = Extract<WaterValueName, 'ammoniaMgL' | 'nitriteMgL' | 'tempC' | 'ph' | 'ghDgh' | 'tdsMgL'>;

/** A thing to do, with the reason and figures that call for it. */
export type FirstAidStep =
  | { readonly do: 'air'; readonly why: AirReason }
  | { readonly do: 'cool' | 'warm'; readonly tempC: number | null }
  | { readonly do: 'take-out'; readonly what: PoisonSource }
  | { readonly do: 'dechlorinate' }
  | { readonly do: 'clear'; readonly food: boolean }
  | { readonly do: 'test'; readonly values: readonly MissingValue[] }
  /** `mgL`: the ammonia or nitrite that calls for it, as measured; null: something else does. */
  | ({ readonly do: 'change'; readonly mgL: number | null } & FirstChange)
  | { readonly do: 'no-change'; readonly why: NoChangeReason }
  | { readonly do: 'carbon'; readonly why: PoisonSource }
  | { readonly do: 'apart'; readonly why: 'growths' | 'animals' }
  | { readonly do: 'spread'; readonly to: string };

/** Why it is beyond husbandry. */
export type BeyondReason = 'growths' | 'milky' | 'remedy' | 'many dead';

export interface FirstAid {
  /** In the order in which to do them. */
  readonly steps: readonly FirstAidStep[];
  /** What a vet or licensed practice is for; empty: nothing of it. */
  readonly beyond: readonly BeyondReason[];
}

/**
 * What to do for a tub in trouble, what kills first first: air, heat, what is in the water, then water itself. A change is never more than
 * 25 % within a day, and none where the last one may be the cause and nothing measured calls for it. Order and rules: common practice, no
 * source; the states of measured values are those of `judgeReading`.
 */
export function firstAid(question: FirstAidQuestion): FirstAid {
  const { changed, seen, findings, sameLine } = question;
  const has = (thing: ChangedThing): boolean => changed.includes(thing);
  const see = (thing: SeenThing): boolean => seen.includes(thing);
  const sources = (['remedy', 'metal', 'plants', 'spray'] as const).filter(has);
  const [source] = sources;
  const infects = see('growths');
  const unsafe = source !== undefined || isAt(findings, 'ammonia', 'act') || isAt(findings, 'nitrite', 'act');
  const [other] = sameLine;
  return {
    steps: [
      { do: 'air', why: airReason(question) },
      ...temperatureSteps(question),
      ...sources.map((what) => ({ do: 'take-out' as const, what })),
      ...(has('untreated') ? [{ do: 'dechlorinate' as const }] : []),
      { do: 'clear', food: has('food') || see('cloudy') },
      ...testStep(question),
      ...waterStep(question, source),
      ...(source === undefined ? [] : [{ do: 'carbon' as const, why: source }]),
      ...(infects
        ? [{ do: 'apart' as const, why: 'growths' as const }]
        : has('animals')
          ? [{ do: 'apart' as const, why: 'animals' as const }]
          : []),
      ...(unsafe && !infects && !has('animals') && other !== undefined ? [{ do: 'spread' as const, to: other }] : []),
    ],
    beyond: beyondReasons(question),
  };
}

const stateOf = (findings: readonly Finding[], of: Finding['of']): Finding['state'] | null =>
  findings.find((finding) => finding.of === of)?.state ?? null;

const isAt = (findings: readonly Finding[], of: Finding['of'], state: Finding['state']): boolean =>
  stateOf(findings, of) === state;

const tempOf = (findings: readonly Finding[]): number | null =>
  findings.flatMap((finding) => (finding.of === 'temperature' ? [finding.tempC] : []))[0] ?? null;

/** Above this a tub is cooled, below it warmed: the bands of `judgeReading`, °C. */
const tooWarmC = 27;
const tooColdC = 10;

function isHot({ changed, findings }: FirstAidQuestion): boolean {
  const tempC = tempOf(findings);
  return tempC === null ? changed.includes('heat') : tempC > tooWarmC;
}

function airReason(question: FirstAidQuestion): AirReason {
  const { changed, seen, findings } = question;
  if (seen.includes('no bubbles')) return 'no bubbles';
  if (changed.includes('air')) return 'air';
  if (seen.includes('at the surface')) return 'at the surface';
  if (isAt(findings, 'ammonia', 'act')) return 'ammonia';
  if (isAt(findings, 'nitrite', 'act')) return 'nitrite';
  return isHot(question) ? 'heat' : 'always';
}

function temperatureSteps(question: FirstAidQuestion): FirstAidStep[] {
  const tempC = tempOf(question.findings);
  if (isHot(question)) return [{ do: 'cool', tempC }];
  return tempC !== null && tempC < tooColdC ? [{ do: 'warm', tempC }] : [];
}

/** What decides and was not measured within the last day. */
function testStep({ fresh, seen, changed }: FirstAidQuestion): FirstAidStep[] {
  const isMissing = (of: Finding['of']): boolean => !fresh.includes(of);
  const minerals = seen.includes('white ring') || seen.includes('cramped') || changed.includes('top-up');
  const values: MissingValue[] = [
    ...(isMissing('ammonia') ? (['ammoniaMgL'] as const) : []),
    ...(isMissing('nitrite') ? (['nitriteMgL'] as const) : []),
    ...(isMissing('temperature') ? (['tempC'] as const) : []),
    ...(isMissing('ph') ? (['ph'] as const) : []),
    ...(minerals && isMissing('gh') ? (['ghDgh'] as const) : []),
    ...(minerals && isMissing('tds') ? (['tdsMgL'] as const) : []),
  ];
  return values.length === 0 ? [] : [{ do: 'test', values }];
}

/** The change, or why there is better none. */
function waterStep(question: FirstAidQuestion, source: PoisonSource | undefined): FirstAidStep[] {
  const why = changeReason(question, source);
  if (why === null) return [{ do: 'no-change', why: mineralsSuspected(question) ? 'minerals' : 'water fine' }];
  const change = firstChange(why, question.netLitres, question.swapped, question.water);
  if (change === null) return [{ do: 'no-change', why: 'changed today' }];
  return [{ do: 'change', ...change, mgL: measuredFor(why, question.findings) }];
}

/** The ammonia or nitrite, mg/L, that a reason speaks of. */
function measuredFor(why: FirstChangeReason, findings: readonly Finding[]): number | null {
  const of = why.endsWith('ammonia') ? 'ammonia' : why.endsWith('nitrite') ? 'nitrite' : null;
  return (
    findings.flatMap((finding) => {
      if (finding.of !== of) return [];
      return finding.of === 'ammonia' ? [finding.totalMgL] : finding.of === 'nitrite' ? [finding.mgL] : [];
    })[0] ?? null
  );
}

function changeReason(question: FirstAidQuestion, source: PoisonSource | undefined): FirstChangeReason | null {
  const { changed, findings } = question;
  if (isAt(findings, 'ammonia', 'act')) return 'ammonia';
  if (isAt(findings, 'nitrite', 'act')) return 'nitrite';
  if (source !== undefined) return 'poison';
  if (changed.includes('untreated')) return 'untreated';
  if (mineralsSuspected(question)) return null;
  if (isAt(findings, 'ammonia', 'watch')) return 'some ammonia';
  if (isAt(findings, 'nitrite', 'watch')) return 'some nitrite';
  if (isWaterFine(question)) return null;
  return 'not known';
}

/** A moult that goes wrong, or cramps after new water: the minerals jumped, and another change would be the next jump. */
const mineralsSuspected = ({ seen, changed, changesLogged }: FirstAidQuestion): boolean =>
  seen.includes('white ring') || (seen.includes('cramped') && (changed.includes('water') || changesLogged > 0));

/** Ammonia and nitrite were measured today and are fine: what is wrong is not in them. */
const isWaterFine = ({ findings, fresh, seen }: FirstAidQuestion): boolean =>
  isAt(findings, 'ammonia', 'fine') &&
  isAt(findings, 'nitrite', 'fine') &&
  fresh.includes('ammonia') &&
  fresh.includes('nitrite') &&
  !seen.includes('cloudy');

function beyondReasons({ changed, seen, findings }: FirstAidQuestion): BeyondReason[] {
  const isUnexplained =
    seen.includes('many dead') &&
    changed.every((thing) => thing === 'nothing') &&
    findings.length > 0 &&
    findings.every(({ state }) => state === 'fine');
  return [
    ...(seen.includes('growths') ? (['growths'] as const) : []),
    ...(seen.includes('milky') ? (['milky'] as const) : []),
    ...(changed.includes('remedy') ? (['remedy'] as const) : []),
    ...(isUnexplained ? (['many dead'] as const) : []),
  ];
}
