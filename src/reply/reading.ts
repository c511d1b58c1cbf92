import {
  type ChangePlan,
  dayOf,
  type Finding,
  type Instant,
  type Reading,
  type Tub,
  type WaterState,
  type WaterValueName,
  type WaterValues,
  type WaterVerdict,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { whenLine } from './change.ts';
import {
  counted,
  dateWords,
  dayWords,
  figure,
  listWords,
  litresWords,
  mgLWords,
  tempWords,
  type Voice,
} from './voice.ts';

interface ReadingLogged {
  readonly tub: Tub;
  readonly reading: WaterValues & { readonly at: Instant };
  readonly verdict: WaterVerdict;
  readonly plan: ChangePlan;
  readonly entryId: number;
}

export function readingCard(voice: Voice, by: string, logged: ReadingLogged): Card {
  const { tub, verdict, plan, reading, entryId } = logged;
  const { findings, state } = verdict;
  const troubled = findings.filter((finding) => finding.state !== 'fine');
  const fine = findings.filter((finding) => finding.state === 'fine');
  const dueNow = plan.dueOn <= voice.today;
  const change = button(
    `Changed ${figure(plan.litres)} L`,
    press('change-now', { tub: tub.id, litres: plan.litres }),
    'main',
  );
  const wrong = button('Wrong entry', press('undo-ask', { entry: entryId }));
  const wantsChange = troubled.some(({ of }) => of === 'ammonia' || of === 'nitrite' || of === 'nitrate') || dueNow;
  return {
    title: `${tub.name}: ${headline(voice, state, troubled[0], plan)}`,
    why: [
      ...troubled.slice(0, 3).map((finding) => findingLine(voice, finding)),
      ...(fine.length > 0 ? [fine.map((finding) => shortly(voice, finding)).join(' · ')] : []),
      ...nitrateLines(voice, troubled, plan),
      whenLine(voice, by, reading.at),
    ],
    ...(troubled[0] !== undefined && { next: adviceFor(voice, troubled[0], plan) }),
    controls: [wantsChange ? [change, wrong] : [wrong, button('Next change', press('change-plan', {}))]],
  };
}

function headline(voice: Voice, state: WaterState, worst: Finding | undefined, plan: ChangePlan): string {
  if (worst === undefined) {
    return plan.dueOn <= voice.today ? `fine, change ${litresWords(voice, plan.litres)} today` : 'fine, nothing to do';
  }
  if (worst.of === 'nitrate') {
    const dueNow = plan.dueOn <= voice.today;
    return `${state}, change ${litresWords(voice, plan.litres)} ${dayWords(voice, dueNow ? voice.today : plan.dueOn)}`;
  }
  return `${state}, ${figureOf(voice, worst)}`;
}

function figureOf(voice: Voice, finding: Finding): string {
  switch (finding.of) {
    case 'ammonia':
      return `ammonia ${figure(finding.totalMgL, 2)} mg/L`;
    case 'nitrite':
      return `nitrite ${figure(finding.mgL, 2)} mg/L`;
    case 'nitrate':
      return `nitrate ${mgLWords(finding.mgL)}`;
    case 'temperature':
      return tempWords(voice, finding.tempC);
    case 'ph':
      return `pH ${figure(finding.ph, 2)}`;
    case 'gh':
      return `GH ${figure(finding.dgh)} °dGH`;
    case 'kh':
      return `KH ${figure(finding.dkh)} °dKH`;
    case 'tds':
      return `TDS ${figure(finding.mgL, 0)} mg/L`;
  }
}

function findingLine(voice: Voice, finding: Finding): string {
  const shown = figureOf(voice, finding);
  switch (finding.of) {
    case 'ammonia': {
      const assumed = finding.assumed.length === 0 ? '' : `, ${listWords(finding.assumed)} assumed`;
      return `Un-ionised ${finding.unionisedMgL.toFixed(3)} mg/L, ${figure(finding.share * 100, 2)} % of ${figure(finding.totalMgL, 2)}${assumed}`;
    }
    case 'nitrate':
      return `Nitrate ${mgLWords(finding.mgL)}, limit ${mgLWords(finding.limitMgL)}, source water ${mgLWords(finding.sourceMgL)}`;
    case 'nitrite':
      return `Nitrite ${figure(finding.mgL, 2)} mg/L, should be 0`;
    case 'tds':
      return `${shown}, usually ${figure(finding.usualMgL ?? finding.mgL, 0)}: over 20 % off`;
    case 'temperature':
      return `${shown}, good from ${tempWords(voice, 10)} to ${tempWords(voice, 27)}`;
    case 'ph':
      return `${shown}, good from 6.5 to 8.2`;
    case 'gh':
      return `${shown}, good from 6 to 15: minerals for the moult`;
    case 'kh':
      return `${shown}, good from 1 to 15: it steadies the pH`;
  }
}

export const shortly = (voice: Voice, finding: Finding): string => {
  const shown = figureOf(voice, finding);
  return `${shown.charAt(0).toUpperCase()}${shown.slice(1)} fine`;
};

/** What the planned change does, where nitrate is over the limit. */
function nitrateLines(voice: Voice, troubled: readonly Finding[], plan: ChangePlan): string[] {
  if (!troubled.some(({ of }) => of === 'nitrate') || plan.afterMgL === null) return [];
  const once = `${litresWords(voice, plan.litres)} (${plan.percent} %) gives about ${mgLWords(plan.afterMgL)}`;
  if (plan.reason === 'source-too-high') return [once, 'The source water is over the limit: no change gets under it'];
  return [
    plan.changesToLimit !== null && plan.changesToLimit > 1
      ? `${once}; ${plan.changesToLimit} such changes to the limit`
      : once,
  ];
}

function adviceFor(voice: Voice, worst: Finding, plan: ChangePlan): string {
  const change = `Change ${litresWords(voice, plan.litres)}`;
  switch (worst.of) {
    case 'ammonia':
    case 'nitrite':
      return worst.state === 'act'
        ? `${change} now, stop feeding, air up, test again tomorrow`
        : 'Test again tomorrow; feed nothing until then';
    case 'nitrate':
      return plan.reason === 'source-too-high'
        ? 'Feed less, add plants or use softer water'
        : 'Match the new water within 2 °C';
    case 'temperature':
      return worst.tempC > 20
        ? 'Cool slowly: lid open, fan, shade; more air'
        : 'Warm the room slowly; no sudden change';
    case 'ph':
      return 'Test KH and the source water before changing anything';
    case 'gh':
      return worst.dgh < 6 ? 'Raise minerals slowly over several changes' : 'Top up with soft water only';
    case 'kh':
      return 'Test the source water; change in small steps';
    case 'tds':
      return 'Check what was topped up; change in small steps';
  }
}

const columns: readonly (readonly [WaterValueName, string, number])[] = [
  ['nitrateMgL', 'NO3', 4],
  ['tempC', '°C', 5],
  ['ph', 'pH', 4],
  ['ghDgh', 'GH', 3],
  ['khDkh', 'KH', 3],
  ['tdsMgL', 'TDS', 4],
];

/** The readings of a tub as a table, newest first, with the columns that hold anything. */
export function readingHistoryCard(
  voice: Voice,
  history: { readonly tub: Tub; readonly readings: readonly Reading[] },
  days: number,
  only: WaterValueName | undefined,
): Card {
  const { tub } = history;
  const readings = history.readings.filter((reading) => only === undefined || reading[only] !== null).toReversed();
  if (readings.length === 0) {
    return {
      title: `${tub.name}: no readings in ${counted(days, 'day')}`,
      next: 'Log one with /reading log',
      controls: [[button('Log a reading', press('reading-form', { tub: tub.id }), 'main')]],
    };
  }
  const all: readonly (readonly [WaterValueName, string, number])[] = [
    ...columns,
    ['ammoniaMgL', 'NH4', 4],
    ['nitriteMgL', 'NO2', 4],
  ];
  const used = all
    .filter(([name]) => (only === undefined || name === only) && readings.some((reading) => reading[name] !== null))
    .slice(0, 6);
  const date = (reading: Reading): string => dateWords(voice, dayOf(reading.at, voice.zone)).slice(4).padEnd(7);
  const cell = (reading: Reading, [name, , width]: (typeof columns)[number]): string => {
    const value = reading[name];
    const shown = value === null ? '·' : figure(name === 'tempC' && voice.units === 'us' ? value * 1.8 + 32 : value, 2);
    return shown.padStart(width);
  };
  const heading = `       ${used.map(([name, title, width]) => (name === 'tempC' && voice.units === 'us' ? '°F' : title).padStart(width)).join(' ')}`;
  return {
    title: `${tub.name}: ${counted(readings.length, 'reading')} in ${counted(days, 'day')}`,
    table: [
      heading,
      ...readings
        .slice(0, 25)
        .map((reading) => `${date(reading)}${used.map((column) => cell(reading, column)).join(' ')}`),
    ],
    ...(readings.length > 25 && {
      why: [`The newest 25 of ${readings.length}; give fewer days or one value for the rest`],
    }),
    controls: [
      [
        button('Log a reading', press('reading-form', { tub: tub.id }), 'main'),
        button('Tub', press('tub-show', { tub: tub.id })),
      ],
    ],
  };
}
