import {
  type ChangePlan,
  dayOf,
  type Finding,
  fahrenheitOf,
  type Reading,
  type ReadingLogged,
  type WaterState,
  type WaterValueName,
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
  matchWords,
  mgLWords,
  shareWords,
  tempWords,
  type Voice,
} from './voice.ts';
import { type WaterPast, waterChart } from './waterChart.ts';

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
      ...nitrateLines(voice, troubled, plan),
      ...fineLines(fine.map((finding) => figureOf(voice, finding))),
      whenLine(voice, by, reading.at),
    ],
    ...(troubled[0] !== undefined && { next: adviceFor(voice, troubled[0], plan) }),
    controls: [wantsChange ? [change, wrong] : [wrong, button('Next change', press('change-plan', {}))]],
  };
}

function headline(voice: Voice, state: WaterState, worst: Finding | undefined, plan: ChangePlan): string {
  if (worst === undefined) {
    return plan.dueOn <= voice.today
      ? `fine, routine change ${litresWords(voice, plan.litres)} today`
      : 'fine, nothing to do';
  }
  if (worst.of === 'nitrate') {
    const dueNow = plan.dueOn <= voice.today;
    return `${state}, change ${litresWords(voice, plan.litres)} ${dayWords(voice, dueNow ? voice.today : plan.dueOn)}`;
  }
  return `${state}, ${figureOf(voice, worst)}`;
}

/** "ammonia 1 mg/L", "21.4 °C", "pH 7.4": a judged value with its unit. */
export function figureOf(voice: Voice, finding: Finding): string {
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
      const words = { pH: 'pH 8', temperature: tempWords(voice, 25) };
      const named = finding.assumed.map((of) => words[of]);
      const assumed = named.length === 0 ? '' : ` at ${listWords(named)}, assumed`;
      return `Un-ionised ammonia ${finding.unionisedMgL.toFixed(3)} mg/L, ${figure(finding.share * 100)} % of it${assumed}`;
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

/** How many fine values stand on one line of a phone. */
const finePerLine = 4;

/** "Fine: 21.4 °C · pH 7.4", on as many lines as it takes. */
function fineLines(values: readonly string[]): string[] {
  const lines: string[] = [];
  for (let from = 0; from < values.length; from += finePerLine) {
    lines.push(`Fine: ${values.slice(from, from + finePerLine).join(' · ')}`);
  }
  return lines;
}

/** What the planned change does, where nitrate is over the limit. */
function nitrateLines(voice: Voice, troubled: readonly Finding[], plan: ChangePlan): string[] {
  if (!troubled.some(({ of }) => of === 'nitrate') || plan.afterMgL === null) return [];
  const once = `${shareWords(voice, plan.litres, plan.percent)} gives about ${mgLWords(plan.afterMgL)}`;
  if (plan.reason === 'source-too-high') return [once, 'The source water is not under the limit: no change is'];
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
        : `Match the new water within ${matchWords(voice)}`;
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

/** The columns of the history with the decimals that each is read to. */
const columns: readonly (readonly [WaterValueName, string, number])[] = [
  ['nitrateMgL', 'NO3', 1],
  ['tempC', '°C', 1],
  ['ph', 'pH', 2],
  ['ammoniaMgL', 'NH4', 2],
  ['nitriteMgL', 'NO2', 2],
  ['tdsMgL', 'TDS', 0],
  ['ghDgh', 'GH', 1],
  ['khDkh', 'KH', 1],
];

const columnWidth = 4;
const mostColumns = 6;

/** The readings of a tub as a table, newest first, with the columns that hold anything, and a chart of the chosen value or of nitrate. */
export function readingHistoryCard(
  voice: Voice,
  history: WaterPast,
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
  const measured = columns.filter(
    ([name]) => (only === undefined || name === only) && readings.some((reading) => reading[name] !== null),
  );
  const dates = readings.slice(0, 25).map(({ at }) => dateWords(voice, dayOf(at, voice.zone)).slice(4));
  const dateWidth = Math.max(...dates.map(({ length }) => length)) + 1;
  const used = measured.slice(0, Math.min(mostColumns, Math.floor((38 - dateWidth) / (columnWidth + 1))));
  const left = measured.slice(used.length).map(([, title]) => title);
  const inFahrenheit = (name: WaterValueName): boolean => name === 'tempC' && voice.units === 'us';
  const cell = (reading: Reading, [name, , decimals]: (typeof columns)[number]): string => {
    const value = reading[name];
    const shown = value === null ? '·' : figure(inFahrenheit(name) ? fahrenheitOf(value) : value, decimals);
    return shown.padStart(columnWidth);
  };
  const headings = used.map(([name, title]) => (inFahrenheit(name) ? '°F' : title).padStart(columnWidth));
  const why = [
    ...(left.length > 0 ? [`Measured too: ${listWords(left)}; ask for one with what`] : []),
    ...(readings.length > 25 ? [`The newest 25 of ${readings.length}; give fewer days for the rest`] : []),
  ];
  const chart = waterChart(voice, history, only ?? 'nitrateMgL', only === undefined ? 3 : 2);
  return {
    title: `${tub.name}: ${counted(readings.length, 'reading')} in ${counted(days, 'day')}`,
    table: [
      `${' '.repeat(dateWidth)}${headings.join(' ')}`,
      ...dates.flatMap((date, row) => {
        const reading = readings[row];
        return reading === undefined
          ? []
          : [`${date.padEnd(dateWidth)}${used.map((column) => cell(reading, column)).join(' ')}`];
      }),
    ],
    ...(why.length > 0 && { why }),
    ...(chart !== null && { chart }),
    controls: [
      [
        button('Log a reading', press('reading-form', { tub: tub.id }), 'main'),
        button('Tub', press('tub-show', { tub: tub.id })),
      ],
    ],
  };
}
