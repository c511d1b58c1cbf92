import { areasOf, homeArea, judgeDay, saleById, sendParcel, todayOf } from '../src/desk/index.ts';
import { parseDay, wantedForecasts } from '../src/domain/index.ts';
import { areaOfRef, arrivedForm, press, refusalCard, sentManyCard, weatherForm } from '../src/reply/index.ts';
import type { ActHandlers, Answer, Ctx, Pressed } from './command.ts';
import { arrivedLeaf, packingOn, sentLeaf, weatherLeaf } from './dispatch.ts';
import { keepForm } from './keptForms.ts';
import { runLeaf } from './run.ts';
import { payOnPress } from './saleActs.ts';
import { readNumbers } from './typed.ts';
import { gone, notNumbers, voiceOf, withRetry } from './voice.ts';

/** An act from the packing list: where it was done, the list is shown anew, and what was done is told apart. */
async function fromList(ctx: Ctx, day: string, done: Answer | Promise<Answer>): Promise<Answer> {
  const answer = await done;
  const listed = parseDay(day);
  if (answer.private === true || answer.form !== undefined || listed === undefined) return answer;
  const { card } = packingOn(ctx, listed);
  return card === undefined ? answer : { ...answer, settle: card };
}

/** Marks several parcels at once; those that raise a question are named, not sent. */
function sendMany(ctx: Ctx, values: readonly string[]): Answer | Promise<Answer> {
  const [only, ...others] = values;
  if (only !== undefined && others.length === 0) return runLeaf(sentLeaf, { sale: only }, ctx);
  const sent = [];
  const notSent: { sale: number; why: string }[] = [];
  for (const sale of values) {
    const result = sendParcel(ctx.desk, { ...ctx.by, key: `${ctx.by.key}#${sent.length}` }, { sale });
    if (result.ok) sent.push(result.value);
    else notSent.push({ sale: Number(sale), why: refusalCard(voiceOf(ctx), result.fault).title });
  }
  return { card: sentManyCard(ctx.by.name, sent, notSent), private: sent.length === 0 };
}

/** The form for the first place and day that a parcel's verdict lacks. */
function openWeather(ctx: Ctx, sale: number, typedDay: string): Answer {
  const day = parseDay(typedDay);
  if (day === undefined) return gone;
  const to = saleById(ctx.desk, sale);
  const [wanted] = to === undefined ? [] : wantedForecasts(judgeDay(ctx.desk, day, to).reasons);
  const place = wanted ?? { day, area: to?.area ?? homeArea };
  return { form: weatherForm(voiceOf(ctx), place.day, place.area) };
}

function openWeatherAt(ctx: Ctx, typedDay: string, ref: string): Answer {
  const day = parseDay(typedDay);
  const area = areaOfRef(ref, areasOf(ctx.desk));
  return day === undefined || area === undefined ? gone : { form: weatherForm(voiceOf(ctx), day, area) };
}

async function sendWeather(ctx: Ctx, day: string, fields: Pressed['fields']): Promise<Answer> {
  const { numbers, bad } = readNumbers(fields, ['low', 'high']);
  const { low, high } = numbers as { low?: number; high?: number };
  const retry = () => keepForm(ctx, press('weather-form', { sale: 0, day }), fields);
  if (low === undefined || high === undefined) return notNumbers(bad, 'the low or the high', retry());
  const area = fields['area']?.trim() || homeArea;
  return withRetry(await runLeaf(weatherLeaf, { date: day, area, low, high }, ctx), retry);
}

async function sendArrived(ctx: Ctx, sale: number, fields: Pressed['fields']): Promise<Answer> {
  const { numbers, bad } = readNumbers(fields, ['dead']);
  const retry = () => keepForm(ctx, press('arrived-form', { sale }), fields);
  if (bad.length > 0) return notNumbers(bad, 'the number of dead', retry());
  const delivered = fields['delivered']?.trim();
  const raw = { sale: String(sale), ...numbers, ...(delivered ? { delivered } : {}) };
  return withRetry(await runLeaf(arrivedLeaf, raw, ctx), retry);
}

export const dispatchActs = {
  pack: (_, ctx) => packingOn(ctx, todayOf(ctx.desk)),
  'pack-day': ({ day }, ctx) => {
    const listed = parseDay(day);
    return listed === undefined ? gone : packingOn(ctx, listed);
  },
  'pack-sent': ({ day, sale }, ctx) => fromList(ctx, day, runLeaf(sentLeaf, { sale: String(sale) }, ctx)),
  'pack-sent-pick': ({ day }, ctx, { values }) => fromList(ctx, day, sendMany(ctx, values)),
  'pack-paid': ({ day, sale }, ctx) => fromList(ctx, day, payOnPress(ctx, sale)),
  'pack-paid-pick': ({ day }, ctx, { values }) => fromList(ctx, day, payOnPress(ctx, Number(values[0]) || 0)),
  'parcel-sent': ({ sale }, ctx) => runLeaf(sentLeaf, { sale: String(sale) }, ctx),
  'weather-form': ({ sale, day }, ctx) => openWeather(ctx, sale, day),
  'weather-at': ({ day, area }, ctx) => openWeatherAt(ctx, day, area),
  'weather-send': ({ day }, ctx, { fields }) => sendWeather(ctx, day, fields),
  'arrived-form': ({ sale }) => ({ form: arrivedForm(sale) }),
  'arrived-send': ({ sale }, ctx, { fields }) => sendArrived(ctx, sale, fields),
} satisfies Partial<ActHandlers>;
