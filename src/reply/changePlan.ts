import {
  type ChangePlan,
  daysBetween,
  isHarmful,
  type OddReading,
  type StandingValue,
  type Tub,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card, type ControlRow } from './card.ts';
import { jumpLines, newWaterLine } from './jump.ts';
import { effectLines, isStale, rangeWords, readAgeWords, riseLine, testFirst } from './nitrate.ts';
import { fixButtons, oddShort } from './odd.ts';
import { type WaterToPrepare, waterLines } from './prepare.ts';
import { rowOf } from './row.ts';
import { stepButtons } from './setup.ts';
import { firstAid, standingLine, testAgain } from './standing.ts';
import { counted, dateWords, dayWords, figure, litresWords, matchWords, type Voice } from './voice.ts';

interface TubPlan {
  readonly tub: Tub;
  readonly plan: ChangePlan;
}

interface TubPlanShown extends TubPlan {
  readonly odd: OddReading | null;
  readonly standing: readonly StandingValue[];
}

interface RackPlan extends TubPlan {
  /** Whether its newest nitrate reading does not fit. */
  readonly isOdd: boolean;
}

/** Lines above the next step: more is not read at the tub. */
const mostLines = 5;

/** Lines in the order in which they are read, each with its weight: the lightest give way. */
type Weighed = readonly [line: string, weight: number];

function heaviest(lines: readonly Weighed[], most: number): string[] {
  const kept = new Set(lines.toSorted((a, b) => b[1] - a[1]).slice(0, most));
  return lines.filter((line) => kept.has(line)).map(([line]) => line);
}

const weighed = (weight: number, lines: readonly string[]): Weighed[] => lines.map((line) => [line, weight]);

/** The change of one tub, with its reason. */
export function tubPlanCard(voice: Voice, { tub, plan, odd, standing }: TubPlanShown): Card {
  const { nitrate, dueOn } = plan;
  const isDue = dueOn <= voice.today;
  const [effect = [], ...reasons] = effectLines(voice, plan).map((line) => [line]);
  const isJumpFar = plan.jump.parts > 1 || plan.wholeLitres !== null;
  const lines = [
    ...weighed(
      9,
      standing.filter(isHarmful).map((value) => standingLine(voice, value)),
    ),
    ...weighed(8, [
      nitrate === null
        ? `${plan.percent} % of ${litresWords(voice, tub.netLitres)} net`
        : `Nitrate about ${rangeWords(nitrate.nowMgL)} mg/L now, limit ${figure(nitrate.limitMgL)}${readAgeWords(voice, plan)}`,
    ]),
    ...weighed(3, nitrate === null ? [] : [riseLine(nitrate)]),
    ...weighed(8, odd === null ? [] : [oddShort(voice, odd)]),
    ...weighed(7, effect),
    ...weighed(6, reasons.flat()),
    ...weighed(isJumpFar ? 7 : 1, jumpLines(voice, plan)),
    ...weighed(2, newWaterLine(voice, plan)),
    ...weighed(5, dueOn < voice.today ? [`Due since ${dateWords(voice, dueOn)}`] : []),
  ];
  return {
    title: `${tub.name}: change ${litresWords(voice, plan.litres)} ${isDue ? 'today' : dayWords(voice, dueOn)}`,
    why: heaviest(lines, mostLines),
    next:
      plan.reason === 'urgent'
        ? firstAid(voice, plan, standing)
        : (testAgain(standing) ??
          testFirst(voice, plan) ??
          `Match the new water within ${matchWords(voice)}; dechlorinate it`),
    controls: [
      [
        button(`Changed ${figure(plan.litres)} L`, press('change-now', { tub: tub.id, litres: plan.litres }), 'main'),
        button('All changes', press('change-plan', {})),
      ],
      ...(odd === null || odd.fixes.length === 0 ? [] : [fixButtons(voice, odd)]),
    ],
  };
}

/** How far a tub is over the limit, mg/L; 0: it is not, or nobody knows. */
const overBy = ({ plan: { nitrate } }: TubPlan): number =>
  nitrate === null ? 0 : Math.max(0, nitrate.nowMgL.median - nitrate.limitMgL);

/** What harms today first, then what is over the limit, the furthest first, then what is late; what nobody has tested comes last. */
const mostPressing = (a: TubPlan, b: TubPlan): number =>
  Number(b.plan.reason === 'urgent') - Number(a.plan.reason === 'urgent') ||
  Number(a.plan.nitrate === null) - Number(b.plan.nitrate === null) ||
  overBy(b) - overBy(a) ||
  a.plan.dueOn.localeCompare(b.plan.dueOn);

/** What needs changing today, the water for it, and what comes next. */
export function changePlanCard(voice: Voice, plans: readonly RackPlan[], water: readonly WaterToPrepare[]): Card {
  if (plans.length === 0) return { title: 'No tubs yet', next: 'Add them first', controls: [stepButtons.tub] };
  const due = plans.filter(({ plan }) => plan.dueOn <= voice.today).sort(mostPressing);
  const later = plans.filter(({ plan }) => plan.dueOn > voice.today);
  const ahead = later[0];
  const next = ahead === undefined ? [] : [`Then ${ahead.tub.name} ${dayWords(voice, ahead.plan.dueOn)}`];
  if (due.length === 0) {
    return {
      title: 'No change due today',
      why: next,
      controls: [[button('Log a reading', press('pick-tub', { purpose: 'reading' }))]],
    };
  }
  const total = due.reduce((sum, { plan }) => sum + plan.litres, 0);
  const shown = due.slice(0, 25);
  const isOdd = shown.some((one) => one.isOdd);
  return {
    title: `${counted(due.length, 'change')} today, ${litresWords(voice, total)}`,
    table: ['tub    change NO3', ...shown.map((one) => planRow(voice, one))],
    why: [
      ...(due.length > shown.length ? [`and ${due.length - shown.length} more tubs`] : []),
      ...waterLines(voice, water),
      ...next,
      ...(isOdd ? ['?: the last reading does not fit; open the tub'] : []),
    ],
    next: `Prepare the water: dechlorinated, within ${matchWords(voice)}`,
    controls: planControls(shown),
  };
}

/** The first of the list on a button, and a list to tick several where there are more. */
function planControls(shown: readonly TubPlan[]): ControlRow[] {
  const changed = ({ tub, plan }: TubPlan): string => `${tub.name} changed ${figure(plan.litres)} L`;
  const [first] = shown;
  if (first === undefined) return [];
  const { tub, plan } = first;
  return [
    [button(changed(first), press('change-now', { tub: tub.id, litres: plan.litres }), 'main')],
    ...(shown.length === 1
      ? []
      : [
          [
            {
              kind: 'select',
              placeholder: 'Tick what is changed',
              press: press('changes-done', {}),
              max: shown.length,
              options: shown.map((each) => ({ label: changed(each), value: String(each.tub.id) })),
            },
          ] as const,
        ]),
  ];
}

/** "A1      7.5 L 40→31  1 of 3 2 d late", in fixed width; "?" behind the nitrate of a reading that does not fit. */
function planRow(voice: Voice, { tub, plan, isOdd }: RackPlan): string {
  const { nitrate } = plan;
  const levels = nitrate === null ? '' : `${figure(nitrate.nowMgL.median, 0)}→${figure(nitrate.afterMgL.median, 0)}`;
  const lateDays = daysBetween(plan.dueOn, voice.today);
  const word = rowWord(plan) || (isStale(voice, plan) ? 'old test' : '');
  return rowOf([
    `${tub.name.padEnd(6)}${figure(plan.litres).padStart(5)} L`,
    `${levels}${isOdd ? '?' : ''}`.padEnd(6),
    word,
    lateDays > 0 ? `${lateDays} d late` : '',
  ]);
}

/** Why the change is not an ordinary one; nothing where it is. */
function rowWord({ reason, nitrate, wholeLitres }: ChangePlan): string {
  if (reason === 'urgent') return 'act';
  if (wholeLitres !== null) return 'a part';
  switch (reason) {
    case 'no-reading':
      return 'no test';
    case 'steps':
      return nitrate?.changes == null ? 'series' : `1 of ${nitrate.changes}`;
    case 'source-too-high':
    case 'rise-too-high':
      return `floor ${figure(nitrate?.floorMgL ?? 0, 0)}`;
    default:
      return '';
  }
}
