import { type Finding, harmfulUnionisedMgL, type MovingValue } from '../domain/index.ts';
import { counted, figure, listWords, mgLWords, tempWords, type Voice } from './voice.ts';
import { valueWords } from './waterWords.ts';

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

type Ammonia = Extract<Finding, { of: 'ammonia' }>;

/** "0.465 %", "11.1 %": to three digits, so that it can be compared with a printed table; a trace is told as such. */
function percentWords(share: number): string {
  const percent = share * 100;
  if (percent < 0.01) return 'under 0.01 %';
  return percent < 0.1 ? `${percent.toFixed(3)} %` : `${percent.toPrecision(3)} %`;
}

/** "pH 8 and 25 °C": what was taken where the tub's own is not known; empty where it is. */
function assumedOf(voice: Voice, { assumed }: Ammonia): string {
  const words = { pH: 'pH 8', temperature: tempWords(voice, 25) };
  return listWords(assumed.map((of) => words[of]));
}

/** "0.051 mg/L un-ionised (5.03 %)". */
export const unionisedShort = ({ unionisedMgL, share }: Ammonia): string =>
  `${unionisedMgL.toFixed(3)} mg/L un-ionised (${percentWords(share)})`;

/** A value that is not fine, with the figures that decide. */
export function findingLines(voice: Voice, finding: Finding): string[] {
  const shown = figureOf(voice, finding);
  switch (finding.of) {
    case 'ammonia': {
      const assumed = assumedOf(voice, finding);
      return [
        `Un-ionised ammonia ${finding.unionisedMgL.toFixed(3)} mg/L, ${percentWords(finding.share)} of it${assumed === '' ? '' : ` at ${assumed}, assumed`}`,
        ...criteriaLine(finding),
        ...higherPhLine(finding),
      ];
    }
    case 'nitrate':
      return [];
    case 'nitrite':
      return [`Nitrite ${figure(finding.mgL, 2)} mg/L, should be 0`];
    case 'tds':
      return finding.usualMgL === null
        ? [`${shown}, usual in such tubs 60 to 1000`]
        : [`${shown}, usually ${figure(finding.usualMgL, 0)}: over 20 % off`];
    case 'temperature':
      return [
        `${shown}, good from ${tempWords(voice, 10)} to ${tempWords(voice, 27)}`,
        ...(finding.tempC > 20 ? [`Water this warm holds at most ${figure(finding.oxygenMgL)} mg/L of oxygen`] : []),
      ];
    case 'ph':
      return [`${shown}, good from 6.5 to 8.2`];
    case 'gh':
      return [`${shown}, good from 6 to 15: minerals for the moult`];
    case 'kh':
      return [`${shown}, good from 1 to 15: it steadies the pH`];
  }
}

/** The published 30-day criterion beside it: a second measure, made for fish and mussels. */
function criteriaLine({ criteria }: Ammonia): string[] {
  if (criteria === null) return [];
  const { nitrogenMgL, chronicMgNL, timesChronic } = criteria;
  const times = timesChronic >= 1 ? `${figure(timesChronic)} times` : `${figure(timesChronic * 100, 0)} % of`;
  const line = `${figure(nitrogenMgL, 2)} mg/L as nitrogen (read as NH4), ${times} the 30-day criterion`;
  const whole = `${line} (${figure(chronicMgNL, 2)})`;
  return [whole.length <= longest ? whole : line];
}

/** That much ammonia which is harmless at a low pH is not at a higher one: what new water may do. */
function higherPhLine({ state, atPh8MgL }: Ammonia): string[] {
  return isToxicAtPh8({ state, atPh8MgL })
    ? [`At pH 8 ${(atPh8MgL ?? 0).toFixed(2)} mg/L of it would be un-ionised: toxic`]
    : [];
}

/** Whether a rise of the pH to that of many taps makes it harm. */
export const isToxicAtPh8 = ({ state, atPh8MgL }: Pick<Ammonia, 'state' | 'atPh8MgL'>): boolean =>
  state !== 'act' && atPh8MgL !== null && atPh8MgL >= harmfulUnionisedMgL;

/** "TDS rising 12 mg/L a week, 240 → 300 (6 readings)". */
export function trendLine({ name, trend }: MovingValue): string {
  const { name: called, unit } = valueWords[name];
  const perWeek = figure(Math.abs(trend.perWeek), Math.abs(trend.perWeek) >= 10 ? 0 : 2);
  return `${called} ${trend.of} ${perWeek} ${unit} a week`
    .replace('  ', ' ')
    .concat(`, ${figure(trend.baseline)} → ${figure(trend.latest)} (${counted(trend.readings, 'reading')})`);
}

/** The most that a list shows on one line of a phone, characters. */
const lineLength = 60;
/** A line longer than this breaks more than once. */
const longest = 72;

/** "Fine: 21.4 °C · pH 7.4", on as many lines as it takes. */
export function listLines(word: string, values: readonly string[]): string[] {
  const lines: string[] = [];
  for (const value of values) {
    const longer = `${lines.at(-1)} · ${value}`;
    if (lines.length > 0 && longer.length <= lineLength) lines[lines.length - 1] = longer;
    else lines.push(`${word}: ${value}`);
  }
  return lines;
}

/** The fine values, un-ionised ammonia among them where any ammonia was read. */
export function fineLines(voice: Voice, findings: readonly Finding[]): string[] {
  const fine = findings.filter(({ of, state }) => state === 'fine' && of !== 'nitrate');
  const words = fine.map((finding) =>
    finding.of === 'ammonia' && finding.totalMgL > 0
      ? `${figureOf(voice, finding)}, ${unionisedShort(finding)}`
      : figureOf(voice, finding),
  );
  const assumed = fine.flatMap((finding) =>
    finding.of === 'ammonia' && finding.totalMgL > 0 && finding.assumed.length > 0 ? [assumedOf(voice, finding)] : [],
  );
  return [...listLines('Fine', words), ...assumed.map((at) => `Ammonia judged at ${at}, assumed`)];
}
