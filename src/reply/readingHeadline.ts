import {
  type Finding,
  isAlarm,
  isHarmful,
  isOverLimit,
  type ReadingLogged,
  type StandingValue,
  type WaterState,
} from '../domain/index.ts';
import { figureOf } from './findings.ts';
import { standingWords } from './standing.ts';
import { dayWords, litresWords, mgLWords, type Voice } from './voice.ts';

/** How a reading leaves its tub, and what decides it. */
export interface Headline {
  readonly state: WaterState;
  /** Behind the state: "change 5 L today", "ammonia 2 mg/L". */
  readonly words: string;
  /** The value of this reading that decides; null: another one does, or none. */
  readonly worst: Finding | null;
}

/** Whether a value that stands is one of this reading. */
const isOwn = ({ finding: { of }, at }: StandingValue, { reading, verdict }: ReadingLogged): boolean =>
  at === reading.at && verdict.findings.some((finding) => finding.of === of);

/** Values of other readings that this one says nothing of: what harms, and what waits for a test. */
export const othersStanding = (logged: ReadingLogged): StandingValue[] =>
  logged.standing.filter((value) => !isOwn(value, logged) && (value.state === 'act' || isHarmful(value)));

/** Whether a value of this reading harms and still does: no water was changed since, and it was not read better since. */
const stillHarms = ({ of, state }: Finding, logged: ReadingLogged): boolean =>
  state === 'act' &&
  ((of !== 'ammonia' && of !== 'nitrite') ||
    logged.standing.some((value) => isAlarm(value) && value.finding.of === of && isOwn(value, logged)));

/** What stands behind the tub's name: what harms today first, then what does not fit, then what to watch, then the change. */
export function headlineOf(voice: Voice, logged: ReadingLogged): Headline {
  const { verdict, plan, odd, tub } = logged;
  const isDue = plan.dueOn <= voice.today;
  const change = `change ${litresWords(voice, plan.litres)} ${dayWords(voice, isDue ? voice.today : plan.dueOn)}`;
  const troubled = verdict.findings.filter(({ state }) => state !== 'fine');
  const others = othersStanding(logged);
  const act = troubled.find((finding) => stillHarms(finding, logged));
  const alarm = others.find(({ state }) => state === 'act');
  if (act !== undefined) return { state: 'act', words: figureOf(voice, act), worst: act };
  if (alarm !== undefined) return { state: 'act', words: standingWords(voice, alarm), worst: null };
  if (odd !== null) return { state: 'watch', words: `nitrate ${mgLWords(odd.readMgL)} does not fit`, worst: null };
  const harmed = troubled.find(({ of }) => of === 'ammonia' || of === 'nitrite');
  const [worst] = harmed === undefined ? troubled : [harmed];
  if (worst?.of === 'nitrate') return { state: 'watch', words: change, worst };
  if (worst !== undefined) {
    const since = worst.state === 'act' && tub.name.length <= 6 ? ', changed since' : '';
    return { state: 'watch', words: `${figureOf(voice, worst)}${since}`, worst };
  }
  const [waiting] = others;
  if (waiting !== undefined) return { state: 'watch', words: standingWords(voice, waiting), worst: null };
  if (plan.nitrate !== null && isOverLimit(plan.nitrate)) return { state: 'watch', words: change, worst: null };
  const words = isDue ? `routine change ${litresWords(voice, plan.litres)} today` : 'nothing to do';
  return { state: 'fine', words, worst: null };
}

/** Whether first aid is what the tub needs. */
export const needsFirstAid = ({ standing, plan }: ReadingLogged): boolean =>
  plan.reason === 'urgent' && standing.some(isAlarm);
