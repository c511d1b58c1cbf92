import type { ChangeLogged, ChangePlan, Instant, TopUpLogged, Tub } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card, type ControlRow } from './card.ts';
import { stepButtons } from './setup.ts';
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
  type Voice,
} from './voice.ts';

export function changeCard(voice: Voice, by: string, logged: ChangeLogged): Card {
  const { tub, litres, percent, nitrateMgL, next } = logged;
  return {
    title: `${tub.name}: ${litresWords(voice, litres)} changed`,
    why: [
      `${percent} % of ${litresWords(voice, tub.netLitres)} net`,
      ...(nitrateMgL === null ? [] : [`Nitrate ${mgLWords(nitrateMgL.before)} → about ${mgLWords(nitrateMgL.after)}`]),
      `Next change ${dayWords(voice, next.dueOn)}, ${litresWords(voice, next.litres)}`,
      whenLine(voice, by, logged.at),
    ],
    controls: [[button('Next change', press('change-plan', {}), 'main'), undoButton(logged.entryId)]],
  };
}

/** Who logged it, and when it happened if that was not just now. */
export const whenLine = (voice: Voice, by: string, at: Instant): string =>
  Date.parse(voice.now) - Date.parse(at) < 10 * 60_000
    ? loggedWords(voice, by)
    : `${loggedWords(voice, by)}, for ${momentWords(voice, at)}`;

interface TubPlan {
  readonly tub: Tub;
  readonly plan: ChangePlan;
}

/** The change of one tub, with its reason. */
export function tubPlanCard(voice: Voice, { tub, plan }: TubPlan): Card {
  const due = plan.dueOn <= voice.today;
  return {
    title: `${tub.name}: change ${litresWords(voice, plan.litres)} ${due ? 'today' : dayWords(voice, plan.dueOn)}`,
    why: [
      `${plan.percent} % of ${litresWords(voice, tub.netLitres)} net`,
      ...reasonLines(plan),
      ...(plan.dueOn < voice.today ? [`Due since ${dateWords(voice, plan.dueOn)}`] : []),
    ],
    next: `Match the new water within ${matchWords(voice)}; dechlorinate it`,
    controls: [
      [
        button(`Changed ${figure(plan.litres)} L`, press('change-now', { tub: tub.id, litres: plan.litres }), 'main'),
        button('All changes', press('change-plan', {})),
      ],
    ],
  };
}

function reasonLines(plan: ChangePlan): string[] {
  const { nitrateMgL, afterMgL, changesToLimit } = plan;
  if (nitrateMgL === null || afterMgL === null)
    return [
      plan.reason === 'urgent'
        ? 'Ammonia or nitrite harms: the most of your policy'
        : 'No nitrate reading yet: the least of your policy',
    ];
  const effect = `Nitrate ${mgLWords(nitrateMgL)} → about ${mgLWords(afterMgL)}`;
  switch (plan.reason) {
    case 'source-too-high':
      return [effect, 'The source water is not under the limit: no change is'];
    case 'urgent':
      return [effect, 'Ammonia or nitrite harms: the most of your policy'];
    case 'capped':
      return [effect, `The most of your policy; ${changesToLimit ?? 'many'} such changes reach the limit`];
    case 'towards-limit':
      return [effect, 'Just enough to reach the limit'];
    default:
      return [effect, 'Under the limit: the least of your policy'];
  }
}

/** What needs changing today, the water for it, and what comes next. */
export function changePlanCard(voice: Voice, plans: readonly TubPlan[]): Card {
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
    why: [...(due.length > shown.length ? [`and ${due.length - shown.length} more tubs`] : []), ...next],
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

function planRow(voice: Voice, tub: Tub, plan: ChangePlan): string {
  const nitrate = plan.nitrateMgL === null ? '–' : figure(plan.nitrateMgL, 0);
  const reason = plan.reason === 'urgent' ? 'act' : `NO3 ${nitrate.padStart(3)}`;
  const since = plan.dueOn < voice.today ? `  since ${dateWords(voice, plan.dueOn).slice(4)}` : '';
  return `${tub.name.padEnd(6)}${figure(plan.litres).padStart(5)} L  ${reason.padEnd(7)}${since}`
    .trimEnd()
    .slice(0, 38);
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

export function topUpCard(voice: Voice, by: string, logged: TopUpLogged): Card {
  const { tub, litres, water } = logged;
  const tap = water === 'tap';
  return {
    title: `${tub.name}: ${litresWords(voice, litres)} topped up, ${tap ? 'tap' : 'soft'} water`,
    why: [
      'Only water evaporates: the minerals stayed in the tub',
      ...muchLine(logged),
      tdsLine(logged),
      whenLine(voice, by, logged.at),
    ],
    ...(tap && { next: 'Use soft water (rain, osmosis) for the next top-up' }),
    controls: [[undoButton(logged.entryId)]],
  };
}
