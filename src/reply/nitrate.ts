import {
  type ChangePlan,
  daysBetween,
  type Estimate,
  type NitrateOutlook,
  type ReadInterval,
} from '../domain/index.ts';
import { counted, figure, mgLWords, shareWords, type Voice } from './voice.ts';

/** "31", "8.5": nitrate is told whole from 10 up. */
const mgL = (value: number): string => figure(Math.max(0, value), value >= 10 ? 0 : 1);

/** "31 (24–40)"; the range is left out where it rounds to the same. */
export function rangeWords({ median, low, high }: Estimate): string {
  const [middle, from, to] = [mgL(median), mgL(low), mgL(high)];
  return from === to ? middle : `${middle} (${from}–${to})`;
}

/** "Nitrate 40 mg/L (kit step: 30–60), limit 20". */
export function readLine(valueMgL: number, kit: ReadInterval | null, limitMgL: number): string {
  const step =
    kit === null || !kit.isStep
      ? ''
      : Number.isFinite(kit.highMgL)
        ? ` (kit step: ${mgL(kit.lowMgL)}–${mgL(kit.highMgL)})`
        : ` (top step: ${mgL(kit.lowMgL)} or more)`;
  return `Nitrate ${mgLWords(valueMgL)}${step}, limit ${mgL(limitMgL)}`;
}

/** Under this rise no kit tells anything from one month to the next, mg/L a week (common practice, no source). */
const untold = 0.5;

/** "Rising about 3 mg/L a week (2–4.5); source water 5". */
export const riseLine = (nitrate: NitrateOutlook): string =>
  `${riseWords(nitrate)}; source water ${mgL(nitrate.sourceMgL)}`;

function riseWords({ risePerDay, readings }: NitrateOutlook): string {
  const [median, low, high] = [risePerDay.median, risePerDay.low, risePerDay.high].map((perDay) => perDay * 7);
  if (median === undefined || low === undefined || high === undefined) throw new Error('an estimate without a rise');
  if (high <= 0) return `Falling about ${figure(-median)} mg/L a week: plants take it up`;
  if (high < untold) return `Hardly rising: at most ${figure(high)} mg/L a week`;
  const range = `${figure(Math.max(0, low))}–${figure(high)}`;
  if (readings < 2) return `Rise not known yet, about ${figure(median)} mg/L a week (${range})`;
  if (median < untold) return `Rising ${range} mg/L a week`;
  return `Rising about ${figure(median)} mg/L a week (${range})`;
}

/** "weekly", "every 3 days". */
const everyWords = (days: number): string => (days === 7 ? 'weekly' : `every ${counted(days, 'day')}`);

/** What the planned change does, and what such changes come to: one or two lines. */
export function effectLines(voice: Voice, plan: ChangePlan): string[] {
  const { nitrate, reason, litres, percent, everyDays } = plan;
  if (nitrate === null) {
    return [
      reason === 'urgent'
        ? 'Ammonia or nitrite harms: the most that is borne at once'
        : `${unreadWords(voice, plan)}: the least of your policy`,
    ];
  }
  const then = plan.dueOn > voice.today ? ' then' : '';
  const once = `${shareWords(voice, litres, percent)}${then} gives about ${rangeWords(nitrate.afterMgL)}`;
  const limit = mgL(nitrate.limitMgL);
  // A part is not what its reason asked for: that was the whole.
  if (plan.wholeLitres !== null && reason !== 'steps' && reason !== 'source-too-high' && reason !== 'rise-too-high') {
    return [`${once}: a part`, `Such parts ${everyWords(everyDays)} hold about ${mgL(nitrate.heldMgL)} in the end`];
  }
  switch (reason) {
    case 'urgent':
      return [once, 'Ammonia or nitrite harms: the most that is borne at once'];
    case 'source-too-high':
    case 'rise-too-high':
      return [once, ...floorLines(plan, nitrate, limit)];
    case 'steps': {
      const more = nitrate.changes === null ? 'many' : counted(nitrate.changes, 'change');
      return [once, `${more}, ${counted(everyDays, 'day')} apart, get it under ${limit}`];
    }
    case 'capped':
      return [`${once}, the most of your policy`, ...(nitrate.heldMgL > nitrate.limitMgL ? [] : [heldLine(nitrate)])];
    case 'plateau':
      return [
        once,
        `Less would settle over ${limit}; this ${everyWords(everyDays)} holds about ${mgL(nitrate.heldMgL)}`,
      ];
    case 'limit':
      return [once, `Under ${limit} until the next; such changes hold about ${mgL(nitrate.heldMgL)}`];
    default:
      return [`${once}: the least of your policy`];
  }
}

/** "No nitrate reading of late", "Nitrate not read for 138 days". */
export const unreadWords = (voice: Voice, { nitrateReadOn }: ChangePlan): string =>
  nitrateReadOn === null
    ? 'No nitrate reading of late'
    : `Nitrate not read for ${counted(daysBetween(nitrateReadOn, voice.today), 'day')}`;

/** An estimate of nitrate whose last reading is older than this asks for a test before it is acted on, days (common practice, no source). */
const staleDays = 45;
/** An age under this needs no telling. */
const freshDays = 7;

const ageOf = (voice: Voice, { nitrateReadOn }: ChangePlan): number =>
  nitrateReadOn === null ? 0 : daysBetween(nitrateReadOn, voice.today);

/** ", read 98 days ago" behind a figure of nitrate; nothing where it is fresh. */
export function readAgeWords(voice: Voice, plan: ChangePlan): string {
  const days = ageOf(voice, plan);
  return days > freshDays ? `, read ${counted(days, 'day')} ago` : '';
}

/** Whether nitrate was read so long ago that a test comes before a change. */
export const isStale = (voice: Voice, plan: ChangePlan): boolean => ageOf(voice, plan) > staleDays;

/** "Test nitrate first: it was read 98 days ago"; null where it is fresh, or never was read. */
export const testFirst = (voice: Voice, plan: ChangePlan): string | null =>
  isStale(voice, plan) ? `Test nitrate first: it was read ${counted(ageOf(voice, plan), 'day')} ago` : null;

const heldLine = ({ heldMgL }: NitrateOutlook): string => `Such changes hold about ${mgL(heldMgL)} in the end`;

/** That the limit cannot be held, the floor, and what would help. */
function floorLines(
  { reason, percent, everyDays }: ChangePlan,
  { floorMgL, remedy }: NitrateOutlook,
  limit: string,
): string[] {
  const floor = `floor about ${mgL(floorMgL)} mg/L`;
  const truth =
    reason === 'source-too-high'
      ? `No change gets under ${limit}: the source water is not, ${floor}`
      : `At this rise ${percent} % ${everyWords(everyDays)} do not hold ${limit}: ${floor}`;
  const helps = [
    ...(remedy?.everyDays == null ? [] : [`a change every ${counted(remedy.everyDays, 'day')}`]),
    ...(remedy?.riseAtMostPerDay == null
      ? []
      : [`a rise under ${figure(remedy.riseAtMostPerDay * 7)} mg/L a week (less food, more plants)`]),
    ...(remedy?.sourceAtMostMgL == null
      ? []
      : [`source water of at most ${mgL(remedy.sourceAtMostMgL)} mg/L: /setup water target-nitrate`]),
  ];
  return [truth, ...helps.slice(0, 2).map((help, place) => `${place === 0 ? 'Helps:' : 'Or'} ${help}`)];
}

/** "At the limit in about 12 days without a change"; null where it is over already or never gets there. */
export function limitLine({ daysToLimit }: NitrateOutlook): string | null {
  const { median, soonest } = daysToLimit;
  if (median === null) return soonest === null ? null : `May reach the limit in ${counted(Math.ceil(soonest), 'day')}`;
  if (median <= 0) return null;
  const earliest = soonest !== null && soonest < median - 1 ? `, at the soonest ${Math.ceil(soonest)}` : '';
  return median > 400
    ? null
    : `At the limit in about ${counted(Math.round(median), 'day')} without a change${earliest}`;
}
