import type { ChangePlan, Instant, Reading, Tub, TubStock, WaterVerdict } from '../domain/index.ts';
import { press } from './acts.ts';
import { holdEndWords } from './animals.ts';
import { button, type Card } from './card.ts';
import { shortly } from './reading.ts';
import {
  ageWords,
  counted,
  dateWords,
  dayWords,
  figure,
  litresWords,
  momentWords,
  someWords,
  type Voice,
} from './voice.ts';

interface TubState {
  readonly tub: Tub;
  readonly last: { readonly reading: Reading; readonly verdict: WaterVerdict; readonly daysOld: number } | null;
  readonly lastChangedAt: Instant | null;
  readonly plan: ChangePlan;
  readonly stock: TubStock;
  readonly lateDays: number;
}

/** A tub on one screen: state first, then water, change, animals. */
export function tubCard(voice: Voice, state: TubState): Card {
  const { tub, last, plan, stock, lateDays } = state;
  const dueNow = plan.dueOn <= voice.today;
  return {
    title: `${tub.name}: ${tubHeadline(voice, state)}`,
    why: [
      `${tub.lineName} · ${tub.role} · rack ${tub.rack} · ${litresWords(voice, tub.litres)}, net ${litresWords(voice, tub.netLitres)}`,
      last === null
        ? 'No reading yet'
        : `Read ${ageWords(voice, last.reading.at)}: ${last.verdict.findings.map((finding) => shortly(voice, finding)).join(' · ')}`,
      `Changed ${state.lastChangedAt === null ? 'not yet' : ageWords(voice, state.lastChangedAt)} · next ${litresWords(voice, plan.litres)} ${
        lateDays > 0 ? `since ${dateWords(voice, plan.dueOn)}` : dayWords(voice, plan.dueOn)
      }`,
      stockLine(voice, stock),
      ...(stock.offSale === null
        ? []
        : [`Off sale ${holdEndWords(voice, stock.offSale.until as Voice['today'] | null)}: ${stock.offSale.reason}`]),
    ],
    controls: [
      [
        button('Log a reading', press('reading-form', { tub: tub.id }), dueNow ? 'plain' : 'main'),
        button(
          `Changed ${figure(plan.litres)} L`,
          press('change-now', { tub: tub.id, litres: plan.litres }),
          dueNow ? 'main' : 'plain',
        ),
        button('Count', press('count-form', { tub: tub.id })),
      ],
    ],
  };
}

function stockLine(voice: Voice, { saleable, counted: count }: TubStock): string {
  if (saleable === null || count === null) return 'Animals: not counted yet';
  return `${saleable} saleable, counted ${ageWords(voice, count.at)} by ${count.by}`;
}

function tubHeadline(voice: Voice, { last, plan, lateDays, stock }: TubState): string {
  const state = last?.verdict.state ?? 'fine';
  if (state !== 'fine') return `${state}, ${last?.verdict.findings[0]?.of ?? 'water'}`;
  if (lateDays > 0) return `change ${counted(lateDays, 'day')} late`;
  if (plan.dueOn === voice.today) return `change ${litresWords(voice, plan.litres)} today`;
  if (stock.offSale !== null) return 'off sale';
  return last === null ? 'nothing read yet' : 'fine, nothing to do';
}

/** Every tub on a phone screen, worst first. */
export function tubListCard(voice: Voice, states: readonly TubState[]): Card {
  if (states.length === 0) return { title: 'No tubs there', next: 'Add one with /tub add' };
  const troubled = states.filter(({ last }) => last !== null && last.verdict.state !== 'fine').length;
  const late = states.filter(({ lateDays }) => lateDays > 0).length;
  const shown = states.slice(0, 40);
  return {
    title: `${counted(states.length, 'tub')}: ${troubled === 0 && late === 0 ? 'all fine' : `${troubled} to watch, ${late} late`}`,
    table: shown.map((state) => listRow(voice, state)),
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

function listRow(voice: Voice, state: TubState): string {
  const { tub, stock, last } = state;
  const animals = stock.saleable === null ? '  –' : String(stock.saleable).padStart(3);
  const nitrate = last?.reading.nitrateMgL ?? null;
  return `${tub.name.padEnd(5)} ${animals} ${nitrate === null ? '     ' : `N${figure(nitrate, 0).padStart(3)} `} ${tubHeadline(voice, state)}`.slice(
    0,
    38,
  );
}

export function tubsAddedCard(voice: Voice, tubs: readonly Tub[]): Card {
  const [first] = tubs;
  if (first === undefined) return { title: 'No tub added' };
  const many = tubs.length > 1;
  return {
    title: many ? `${tubs.length} tubs added: ${first.name} to ${tubs.at(-1)?.name}` : `${first.name} added`,
    why: [
      `${first.lineName} · ${litresWords(voice, first.litres)} each, ${litresWords(voice, first.netLitres)} net of gravel and gap · rack ${first.rack} · ${first.role}`,
      ...(many
        ? [
            someWords(
              tubs.map(({ name }) => name),
              12,
            ),
          ]
        : []),
      'A filled tub weighs about a kilogram a litre: mind what rack and floor can bear',
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

export function tubEditedCard(voice: Voice, { before, after }: { readonly before: Tub; readonly after: Tub }): Card {
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
    why: changes,
    controls: [[button('Tub', press('tub-show', { tub: after.id }))]],
  };
}

export const tubRetiredCard = (voice: Voice, tub: Tub, reason: string, at: Instant): Card => ({
  title: `${tub.name}: retired`,
  why: [`Reason: ${reason}`, `Since ${momentWords(voice, at)}; its history stays`],
});
