import {
  type ChangeLogged,
  type ChangePlan,
  creepPlateau,
  daysBetween,
  type Instant,
  isHarmful,
  type OddReading,
  type StandingValue,
  type TopUpLogged,
  type Tub,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card, type ControlRow } from './card.ts';
import { jumpLines } from './jump.ts';
import { effectLines, rangeWords, riseLine } from './nitrate.ts';
import { fixButtons, oddShort } from './odd.ts';
import { type WaterToPrepare, waterLines } from './prepare.ts';
import { stepButtons } from './setup.ts';
import { firstAid, standingLine, testAgain } from './standing.ts';
import { undoButton } from './undoButton.ts';
import {
  counted,
  dateWords,
  dayWords,
  figure,
  litresWords,
  loggedWords,
  matchWords,
  mgLWords,
  momentWords,
  sinceWords,
  type Voice,
} from './voice.ts';

export function changeCard(voice: Voice, by: string, logged: ChangeLogged): Card {
  const { tub, litres, percent, nitrateMgL, next, together, standing } = logged;
  const test = testAgain(standing, ' tomorrow');
  return {
    title: `${tub.name}: ${litresWords(voice, litres)} changed`,
    why: [
      `${percent} % of ${litresWords(voice, tub.netLitres)} net`,
      ...(together === null
        ? []
        : [
            `With the ${litresWords(voice, together.litres)} of ${sinceWords(voice, together.at)} the two swap ${together.percent} %`,
          ]),
      ...(nitrateMgL === null ? [] : [`Nitrate about ${mgLWords(nitrateMgL.before)} → ${mgLWords(nitrateMgL.after)}`]),
      `Next change ${dayWords(voice, next.dueOn)}, ${litresWords(voice, next.litres)}`,
      whenLine(voice, by, logged.at),
    ],
    ...(test !== null && { next: test }),
    controls: [[button('Next change', press('change-plan', {}), 'main'), undoButton(logged.entryId)]],
  };
}

/** Who logged it, and when it happened if that was not just now. */
export const whenLine = (voice: Voice, by: string, at: Instant, loggedAt = voice.now): string =>
  Date.parse(loggedAt) - Date.parse(at) < 10 * 60_000
    ? loggedWords(voice, by, loggedAt)
    : `${loggedWords(voice, by, loggedAt)}, for ${momentWords(voice, at)}`;

interface TubPlan {
  readonly tub: Tub;
  readonly plan: ChangePlan;
}

interface TubPlanShown extends TubPlan {
  readonly odd: OddReading | null;
  readonly standing: readonly StandingValue[];
}

/** The change of one tub, with its reason. */
export function tubPlanCard(voice: Voice, { tub, plan, odd, standing }: TubPlanShown): Card {
  const { nitrate, dueOn } = plan;
  const isDue = dueOn <= voice.today;
  return {
    title: `${tub.name}: change ${litresWords(voice, plan.litres)} ${isDue ? 'today' : dayWords(voice, dueOn)}`,
    why: [
      ...standing.filter(isHarmful).map((value) => standingLine(voice, value)),
      ...(nitrate === null
        ? [`${plan.percent} % of ${litresWords(voice, tub.netLitres)} net`]
        : [
            `Nitrate about ${rangeWords(nitrate.nowMgL)} mg/L now, limit ${figure(nitrate.limitMgL)}`,
            riseLine(nitrate),
          ]),
      ...(odd === null ? [] : [oddShort(voice, odd)]),
      ...effectLines(voice, plan),
      ...jumpLines(voice, plan),
      ...(dueOn < voice.today ? [`Due since ${dateWords(voice, dueOn)}`] : []),
    ],
    next:
      plan.reason === 'urgent'
        ? firstAid(voice, plan, standing)
        : (testAgain(standing) ?? `Match the new water within ${matchWords(voice)}; dechlorinate it`),
    controls: [
      [
        button(`Changed ${figure(plan.litres)} L`, press('change-now', { tub: tub.id, litres: plan.litres }), 'main'),
        button('All changes', press('change-plan', {})),
      ],
      ...(odd === null || odd.fixes.length === 0 ? [] : [fixButtons(voice, odd)]),
    ],
  };
}

/** What needs changing today, the water for it, and what comes next. */
export function changePlanCard(voice: Voice, plans: readonly TubPlan[], water: readonly WaterToPrepare[]): Card {
  if (plans.length === 0) return { title: 'No tubs yet', next: 'Add them first', controls: [stepButtons.tub] };
  // What harms today stands first; the others as they came.
  const due = plans
    .filter(({ plan }) => plan.dueOn <= voice.today)
    .sort((a, b) => Number(b.plan.reason === 'urgent') - Number(a.plan.reason === 'urgent'));
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
  return {
    title: `${counted(due.length, 'change')} today, ${litresWords(voice, total)}`,
    table: shown.map(({ tub, plan }) => planRow(voice, tub, plan)),
    why: [
      ...(due.length > shown.length ? [`and ${due.length - shown.length} more tubs`] : []),
      ...waterLines(voice, water),
      ...next,
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

/** "A1      7.5 L 40→31  1 of 3 2 d late", in fixed width. */
function planRow(voice: Voice, tub: Tub, plan: ChangePlan): string {
  const { nitrate } = plan;
  const levels = nitrate === null ? '' : `${figure(nitrate.nowMgL.median, 0)}→${figure(nitrate.afterMgL.median, 0)}`;
  const lateDays = daysBetween(plan.dueOn, voice.today);
  const late = lateDays > 0 ? `${lateDays} d late` : '';
  const row = [`${tub.name.padEnd(6)}${figure(plan.litres).padStart(5)} L`, levels.padEnd(6), rowWord(plan), late];
  return row
    .filter((part) => part !== '')
    .join(' ')
    .slice(0, 38)
    .trimEnd();
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

/** Several changes ticked at once: what was logged, what was not. */
export function changesCard(
  voice: Voice,
  by: string,
  logged: readonly ChangeLogged[],
  notLogged: readonly { readonly tub: string; readonly why: string }[],
): Card {
  const total = logged.reduce((sum, { litres }) => sum + litres, 0);
  return {
    title:
      logged.length === 0
        ? 'No change logged'
        : `${counted(logged.length, 'change')} logged, ${litresWords(voice, total)}`,
    why: [
      ...(logged.length === 0 ? [] : [logged.map(({ tub, litres }) => `${tub.name} ${figure(litres)} L`).join(' · ')]),
      ...notLogged.map(({ why }) => why),
      loggedWords(voice, by),
    ],
    controls: [[button('Next change', press('change-plan', {}), 'main')]],
  };
}

/** What a top-up does to TDS. */
function tdsLine({ water, tdsMgL: { last, adds } }: TopUpLogged): string {
  if (water === 'soft') return 'Soft water adds none: TDS stays as it was';
  if (adds === null) return 'Tap water adds its own each time: TDS creeps up';
  const added = `Tap water adds about ${figure(adds, adds < 1 ? 1 : 0)} mg/L TDS`;
  return last === null ? `${added} each time` : `${added}: ${figure(last, 0)} → ${figure(last + adds, 0)}`;
}

/** More than this part of the tub seldom evaporates between two top-ups (common practice, no source), %. */
const muchPercent = 15;

/** A change that was logged as a top-up would leave its nitrate in the books. */
function muchLine({ tub, litres }: TopUpLogged): string[] {
  const percent = Math.round((litres / tub.netLitres) * 100);
  return percent > muchPercent ? [`That is ${percent} % of the tub: if it was a change, undo and log it so`] : [];
}

/** What such top-ups and changes come to in the end. */
function creepLines({ creep, sourceTdsMgL }: TopUpLogged): string[] {
  if (creep === null || !creep.wantsSoftTopUps) return [];
  const evaporated = `${figure(creep.tapTopUpPerWeek * 100)} % a week topped up with tap water`;
  if (creep.factor === null) return [`${evaporated}, nothing changed: minerals rise without end`];
  const plateau = sourceTdsMgL === null ? null : creepPlateau(sourceTdsMgL, creep);
  const settles =
    plateau === null ? `${figure(creep.factor, 2)} times the tap's minerals` : `TDS about ${figure(plateau, 0)}`;
  return [`${evaporated}, ${figure(creep.changedPerWeek * 100)} % changed: settles at ${settles}`];
}

export function topUpCard(voice: Voice, by: string, logged: TopUpLogged): Card {
  const { tub, litres, water } = logged;
  const tap = water === 'tap';
  return {
    title: `${tub.name}: ${litresWords(voice, litres)} topped up, ${tap ? 'tap' : 'soft'} water`,
    why: [
      'Only water evaporates: the minerals stayed in the tub',
      ...muchLine(logged),
      tdsLine(logged),
      ...creepLines(logged),
      whenLine(voice, by, logged.at),
    ],
    ...(tap && { next: 'Use soft water (rain, osmosis) for the next top-up' }),
    controls: [[undoButton(logged.entryId)]],
  };
}
