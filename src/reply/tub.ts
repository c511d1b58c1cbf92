import {
  type Creep,
  dayOf,
  daysBetween,
  type Instant,
  type MovingValue,
  type OddReading,
  type StandingValue,
  type Tub,
  type TubStock,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { countedWords, holdEndWords, rangeOfAnimals } from './animals.ts';
import { type Button, button, type Card } from './card.ts';
import { figureOf, trendLine } from './findings.ts';
import { isStale, rangeWords, readAgeWords, riseLine, testFirst } from './nitrate.ts';
import { oddShort } from './odd.ts';
import { rowOf } from './row.ts';
import { stepButtons } from './setup.ts';
import { firstAid, standingLine, standingShort, testAgain, wantsTest } from './standing.ts';
import { type TubWater, worstWords } from './tubWater.ts';
import { undoButton } from './undoButton.ts';
import {
  ageWords,
  counted,
  dateWords,
  dayWords,
  figure,
  litresWords,
  loggedWords,
  sinceWords,
  type Voice,
} from './voice.ts';
import { type WaterPast, waterChart } from './waterChart.ts';

interface TubState extends TubWater {
  readonly tub: Tub;
  /** Whether its newest nitrate reading does not fit. */
  readonly isOdd: boolean;
  readonly lastChangedAt: Instant | null;
  readonly stock: TubStock;
  readonly lateDays: number;
}

interface TubShown extends TubState {
  readonly past: WaterPast;
  readonly odd: OddReading | null;
  readonly trends: readonly MovingValue[];
  readonly creep: Creep | null;
}

/** A tub on one screen: state first, then water, change, animals, and its nitrate as a chart where it was read often enough. */
export function tubCard(voice: Voice, state: TubShown): Card {
  const { tub, last, plan, stock, odd, creep } = state;
  const chart = waterChart(voice, state.past, 'nitrateMgL', 3);
  const next = waterAdvice(voice, state);
  return {
    title: `${tub.name}: ${tubHeadline(voice, state)}`,
    why: [
      `${tub.lineName} · ${tub.role} · rack ${tub.rack} · ${litresWords(voice, tub.netLitres)} net of ${figure(tub.litres)}`,
      last === null
        ? 'No reading yet'
        : `Read ${ageWords(voice, last.reading.at)}: ${last.verdict.findings.map((finding) => figureOf(voice, finding)).join(' · ')}`,
      `${state.lastChangedAt === null ? 'No change logged' : `Changed ${ageWords(voice, state.lastChangedAt)}`} · next ${litresWords(voice, plan.litres)} ${
        plan.dueOn < voice.today ? `due since ${dateWords(voice, plan.dueOn)}` : dayWords(voice, plan.dueOn)
      }`,
      ...(plan.nitrate === null
        ? []
        : [
            `Nitrate about ${rangeWords(plan.nitrate.nowMgL)} mg/L now${readAgeWords(voice, plan)}`,
            riseLine(plan.nitrate),
          ]),
      ...standingBeside(state).map((value) => standingLine(voice, value)),
      ...(odd === null ? [] : [oddShort(voice, odd)]),
      ...state.trends.slice(0, 2).map((moving) => trendLine(moving)),
      ...(creep?.wantsSoftTopUps === true ? ['Top up with soft water: tap water piles minerals up'] : []),
      stockLine(voice, stock),
      ...(stock.offSale === null
        ? []
        : [`Off sale ${holdEndWords(voice, stock.offSale.until as Voice['today'] | null)}: ${stock.offSale.reason}`]),
    ],
    ...(next !== null && { next }),
    ...(chart !== null && { chart }),
    controls: [tubControls(voice, state)],
  };
}

/** What stands from readings before the last, and what was changed for since the last. */
const standingBeside = ({ standing, last }: TubState): readonly StandingValue[] =>
  standing.filter((value) => value.at !== last?.reading.at || wantsTest(value));

/** First aid, or the test that is waited for; null: neither. */
function waterAdvice(voice: Voice, { plan, standing }: TubState): string | null {
  if (plan.reason === 'urgent') return firstAid(voice, plan, standing);
  return testAgain(standing) ?? testFirst(voice, plan);
}

/** The likely act first; no second change is offered on the day of one. */
function tubControls(voice: Voice, { tub, plan, lastChangedAt }: TubState): Button[] {
  const isDue = plan.dueOn <= voice.today;
  const changedToday = lastChangedAt !== null && dayOf(lastChangedAt, voice.zone) === voice.today;
  const reading = button('Log a reading', press('reading-form', { tub: tub.id }), isDue ? 'plain' : 'main');
  const count = button('Count', press('count-form', { tub: tub.id }));
  const changed = button(
    `Changed ${figure(plan.litres)} L`,
    press('change-now', { tub: tub.id, litres: plan.litres }),
    isDue ? 'main' : 'plain',
  );
  if (isDue) return [changed, reading, count];
  return changedToday ? [reading, count] : [reading, count, changed];
}

function stockLine(voice: Voice, { range, counted: count }: TubStock): string {
  if (range === null || count === null) return 'Animals: not counted yet';
  const sure = range.low === count.saleable && range.high === count.saleable ? '' : `: ${count.saleable}`;
  return `${rangeOfAnimals(range)} saleable, ${countedWords[count.method]} ${ageWords(voice, count.at)} (${count.by})${sure}`;
}

/** A reading older than this says little of today; a test a month is usual (common practice, no source). */
const staleDays = 45;

function tubHeadline(voice: Voice, tub: TubState, said?: typeof standingShort): string {
  const { last, plan, lateDays, stock } = tub;
  const worst = worstWords(voice, tub, said);
  if (worst !== null) return `${tub.waterState}, ${worst}`;
  if (lateDays > 0) return `change ${counted(lateDays, 'day')} late`;
  if (plan.dueOn <= voice.today) return `change ${figure(plan.litres)} L ${plan.dueOn < voice.today ? 'due' : 'today'}`;
  if (stock.offSale !== null) return 'off sale';
  if (last === null) return 'nothing read yet';
  if (last.daysOld > staleDays) return `not read for ${last.daysOld} days`;
  if (plan.nitrateReadOn === null) return 'nitrate not read yet';
  return isStale(voice, plan)
    ? `nitrate not read ${daysBetween(plan.nitrateReadOn, voice.today)} days`
    : 'fine, nothing to do';
}

/** Every tub on a phone screen, worst first. */
export function tubListCard(voice: Voice, states: readonly TubState[]): Card {
  if (states.length === 0) return { title: 'No tubs there', next: 'Add them first', controls: [stepButtons.tub] };
  const shown = states.slice(0, 40);
  const nameWidth = Math.min(8, Math.max(3, ...shown.map(({ tub }) => tub.name.length)));
  return {
    title: `${counted(states.length, 'tub')}: ${listSummary(states)}`,
    table: [`${'tub'.padEnd(nameWidth)} sale NO3 state`, ...shown.map((state) => listRow(voice, state, nameWidth))],
    ...(states.length > shown.length && { why: [`and ${states.length - shown.length} more; give a rack or a line`] }),
    controls: [
      [
        {
          kind: 'select',
          placeholder: 'Open a tub',
          press: press('tub-pick', {}),
          options: states
            .slice(0, 25)
            .map(({ tub }) => ({ label: tub.name, value: String(tub.id), description: tub.lineName })),
        },
      ],
    ],
  };
}

/** "1 act, 2 watch, 3 late, 4 not read yet", or that all is fine. */
function listSummary(states: readonly TubState[]): string {
  const are = (wanted: (state: TubState) => boolean): number => states.filter(wanted).length;
  const parts: readonly (readonly [number, string])[] = [
    [are(({ waterState }) => waterState === 'act'), 'act'],
    [are(({ waterState }) => waterState === 'watch'), 'watch'],
    [are(({ lateDays }) => lateDays > 0), 'late'],
    [are(({ plan: { nitrateReadOn } }) => nitrateReadOn === null), 'not read yet'],
  ];
  const said = parts
    .filter(([number]) => number > 0)
    .slice(0, 3)
    .map(([number, words]) => `${number} ${words}`);
  return said.length === 0 ? 'all fine' : said.join(', ');
}

function listRow(voice: Voice, state: TubState, nameWidth: number): string {
  const { tub, stock, last, plan } = state;
  const animals = stock.saleable === null ? '–' : String(stock.saleable);
  const nitrate = plan.nitrate?.nowMgL.median ?? last?.reading.nitrateMgL ?? null;
  const shown = nitrate === null ? '–' : `${figure(nitrate, 0)}${state.isOdd ? '?' : ''}`;
  return rowOf([
    tub.name.slice(0, nameWidth).padEnd(nameWidth),
    animals.padStart(4),
    shown.padStart(3),
    tubHeadline(voice, state, standingShort),
  ]);
}

export function tubsAddedCard(voice: Voice, by: string, tubs: readonly Tub[]): Card {
  const [first] = tubs;
  if (first === undefined) return { title: 'No tub added' };
  const many = tubs.length > 1;
  return {
    title: many ? `${tubs.length} tubs added: ${first.name} to ${tubs.at(-1)?.name}` : `${first.name} added`,
    why: [
      `${first.lineName} · ${first.role} · rack ${first.rack}`,
      `${litresWords(voice, first.litres)}${many ? ' each' : ''}, ${litresWords(voice, first.netLitres)} net of gravel and gap`,
      'Filled, it weighs about 1 kg a litre: mind rack and floor',
      loggedWords(voice, by),
    ],
    next: `Count ${first.name} with /count log when you can`,
    controls: [
      [
        button(`Count ${first.name}`, press('count-form', { tub: first.id }), 'main'),
        button('Log a reading', press('reading-form', { tub: first.id })),
      ],
    ],
  };
}

export function tubEditedCard(
  voice: Voice,
  by: string,
  { before, after }: { readonly before: Tub; readonly after: Tub },
): Card {
  const changes = [
    ...(before.name === after.name ? [] : [`Name ${before.name} → ${after.name}`]),
    ...(before.lineId === after.lineId ? [] : [`Line ${before.lineName} → ${after.lineName}`]),
    ...(before.litres === after.litres
      ? []
      : [`${litresWords(voice, before.litres)} → ${litresWords(voice, after.litres)}`]),
    ...(before.netLitres === after.netLitres
      ? []
      : [`Net ${litresWords(voice, before.netLitres)} → ${litresWords(voice, after.netLitres)}`]),
    ...(before.rack === after.rack ? [] : [`Rack ${before.rack} → ${after.rack}`]),
    ...(before.role === after.role ? [] : [`${before.role} → ${after.role}`]),
  ];
  return {
    title: `${after.name}: ${changes.length === 0 ? 'as it was' : 'changed'}`,
    why: changes.length === 0 ? [] : [...changes, loggedWords(voice, by)],
    controls: [[button('Tub', press('tub-show', { tub: after.id }))]],
  };
}

export const tubRetiredCard = (
  voice: Voice,
  by: string,
  { tub, at, entryId }: { readonly tub: Tub; readonly at: Instant; readonly entryId: number },
  reason: string,
): Card => ({
  title: `${tub.name}: retired`,
  why: [`Reason: ${reason}`, `Since ${sinceWords(voice, at)}; its history stays`, loggedWords(voice, by)],
  controls: [[undoButton(entryId)]],
});
