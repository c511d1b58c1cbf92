import { type ChangePlan, daysBetween, type Instant, type TopUpWater, type Tub } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import {
  counted,
  dateWords,
  dayWords,
  figure,
  litresWords,
  loggedWords,
  mgLWords,
  momentWords,
  type Voice,
} from './voice.ts';

interface ChangeLogged {
  readonly tub: Tub;
  readonly litres: number;
  readonly percent: number;
  readonly at: Instant;
  readonly nitrateMgL: { readonly before: number; readonly after: number } | null;
  readonly next: ChangePlan;
  readonly entryId: number;
}

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
    controls: [
      [
        button('Next change', press('change-plan', {}), 'main'),
        button('Undo', press('undo-ask', { entry: logged.entryId })),
      ],
    ],
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
    next: 'Match the new water within 2 °C; dechlorinate it',
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
  if (nitrateMgL === null || afterMgL === null) return ['No nitrate reading yet: the least of your policy'];
  const effect = `Nitrate ${mgLWords(nitrateMgL)} → about ${mgLWords(afterMgL)}`;
  switch (plan.reason) {
    case 'source-too-high':
      return [effect, 'The source water is over the limit: no change gets under it'];
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
  if (plans.length === 0) return { title: 'No tubs yet', next: 'Add one with /tub add' };
  const due = plans.filter(({ plan }) => plan.dueOn <= voice.today);
  const later = plans.filter(({ plan }) => plan.dueOn > voice.today);
  const ahead = later[0];
  const next = ahead === undefined ? [] : [`Next: ${ahead.tub.name} ${dayWords(voice, ahead.plan.dueOn)}`];
  if (due.length === 0) {
    return {
      title: 'No change due today',
      why: next,
      controls: [[button('Log a reading', press('pick-tub', { purpose: 'reading' }))]],
    };
  }
  const total = due.reduce((sum, { plan }) => sum + plan.litres, 0);
  const shown = due.slice(0, 25);
  const first = due[0];
  return {
    title: `${counted(due.length, 'change')} today, ${litresWords(voice, total)}`,
    table: shown.map(({ tub, plan }) => planRow(voice, tub, plan)),
    why: [...(due.length > shown.length ? [`and ${due.length - shown.length} more tubs`] : []), ...next],
    next: 'Prepare the water tonight: dechlorinated, within 2 °C',
    controls: [
      [
        {
          kind: 'select',
          placeholder: 'Tick what is changed',
          press: press('changes-done', {}),
          max: shown.length,
          options: shown.map(({ tub, plan }) => ({
            label: `${tub.name} changed ${figure(plan.litres)} L`,
            value: String(tub.id),
          })),
        },
      ],
      ...(first === undefined
        ? []
        : [
            [
              button(
                `${first.tub.name} changed ${figure(first.plan.litres)} L`,
                press('change-now', { tub: first.tub.id, litres: first.plan.litres }),
                'main' as const,
              ),
            ],
          ]),
    ],
  };
}

function planRow(voice: Voice, tub: Tub, plan: ChangePlan): string {
  const nitrate = plan.nitrateMgL === null ? 'not read' : `NO3 ${figure(plan.nitrateMgL, 0)}`;
  const late = plan.dueOn < voice.today ? ` late ${daysBetween(plan.dueOn, voice.today)} d` : '';
  return `${tub.name.padEnd(6)}${figure(plan.litres).padStart(5)} L  ${nitrate}${late}`.slice(0, 38);
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

interface TopUpLogged {
  readonly tub: Tub;
  readonly litres: number;
  readonly water: TopUpWater;
  readonly at: Instant;
  readonly tdsMgL: { readonly last: number; readonly adds: number } | null;
  readonly entryId: number;
}

export function topUpCard(voice: Voice, by: string, logged: TopUpLogged): Card {
  const { tub, litres, water, tdsMgL } = logged;
  const tap = water === 'tap';
  return {
    title: `${tub.name}: topped up ${litresWords(voice, litres)} ${tap ? 'from the tap' : 'soft'}`,
    why: [
      'Only water evaporates: the minerals stayed in the tub',
      ...(tdsMgL !== null && tdsMgL.adds > 0
        ? [`TDS ${figure(tdsMgL.last, 0)} → about ${figure(tdsMgL.last + tdsMgL.adds, 0)} mg/L: tap water adds its own`]
        : []),
      ...(tap && tdsMgL !== null && tdsMgL.adds === 0
        ? ['Tap water adds its own minerals each time: TDS creeps up']
        : []),
      ...(tap ? [] : ['Soft water adds none: TDS stays']),
      whenLine(voice, by, logged.at),
    ],
    ...(tap && { next: 'Use soft water (rain, osmosis) for the next top-up' }),
    controls: [[button('Undo', press('undo-ask', { entry: logged.entryId }))]],
  };
}
