import { businessOf, checkParcel, firstToPack, packingParcel } from '../src/desk/index.ts';
import { type CheckStep, checkSteps, type LocalDay, parseDay } from '../src/domain/index.ts';
import { notToPackCard, packParcelCard, press, secondCountForm, slipTextCard } from '../src/reply/index.ts';
import type { ActHandlers, Answer, Ctx, Pressed } from './command.ts';
import { keepForm } from './keptForms.ts';
import { readNumbers } from './typed.ts';
import { gone, notNumbers, refused, voiceOf, withRetry } from './voice.ts';

/** The parcel as it stands, in place of the message that was pressed or as a new one. */
function show(ctx: Ctx, day: LocalDay, sale: number, asNew: boolean, entryId: number | null = null): Answer {
  const packing = packingParcel(ctx.desk, day, sale);
  if (packing === undefined) return { card: notToPackCard(sale), private: true };
  const card = packParcelCard(voiceOf(ctx), packing, entryId);
  return asNew ? { card } : { settle: card };
}

function start(ctx: Ctx, day: LocalDay): Answer {
  const sale = firstToPack(ctx.desk, day);
  return sale === undefined ? gone : show(ctx, day, sale, true);
}

/** Ticks a step and shows the parcel anew, in the message where it was ticked. */
function tick(ctx: Ctx, day: LocalDay, sale: number, step: CheckStep, number?: number): Answer {
  const ticked = checkParcel(ctx.desk, ctx.by, { sale: String(sale), day, step, number });
  return ticked.ok ? show(ctx, day, sale, false, ticked.value.entryId) : refused(ctx, ticked.fault);
}

function sendCount(ctx: Ctx, day: LocalDay, sale: number, fields: Pressed['fields']): Answer {
  const { numbers, bad } = readNumbers(fields, ['number']);
  const retry = () => keepForm(ctx, press('pack-count', { day, sale }), fields);
  const { number } = numbers as { number?: number };
  if (number === undefined) return notNumbers(bad, 'the number', retry());
  return withRetry(tick(ctx, day, sale, 'again', number), retry);
}

function slip(ctx: Ctx, day: LocalDay, sale: number): Answer {
  const packing = packingParcel(ctx.desk, day, sale);
  return packing === undefined
    ? { card: notToPackCard(sale), private: true }
    : { card: slipTextCard(voiceOf(ctx), packing, businessOf(ctx.desk)), private: true };
}

/** Hands on the day that a control carries. */
function onDay(typed: string, answer: (day: LocalDay) => Answer): Answer {
  const day = parseDay(typed);
  return day === undefined ? gone : answer(day);
}

export const packParcelActs = {
  'pack-start': ({ day }, ctx) => onDay(day, (on) => start(ctx, on)),
  'pack-parcel': ({ day, sale, from }, ctx) => onDay(day, (on) => show(ctx, on, sale, from !== 'card')),
  'pack-check': ({ day, sale, step }, ctx) =>
    onDay(day, (on) => {
      const known = checkSteps.find((each) => each === step);
      return known === undefined ? gone : tick(ctx, on, sale, known);
    }),
  'pack-count': ({ day, sale }) => onDay(day, (on) => ({ form: secondCountForm(on, sale) })),
  'pack-count-send': ({ day, sale }, ctx, { fields }) => onDay(day, (on) => sendCount(ctx, on, sale, fields)),
  'pack-slip': ({ day, sale }, ctx) => onDay(day, (on) => slip(ctx, on, sale)),
} satisfies Partial<ActHandlers>;
