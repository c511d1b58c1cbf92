import { z } from 'zod';
import {
  arrivalPossible,
  businessOf,
  judgeDay,
  logArrival,
  logWeather,
  type ParcelSent,
  packingList,
  regionOf,
  sendParcel,
  todayOf,
} from '../src/desk/index.ts';
import { addDays, celsiusOf, dayOf, type LocalDay, ok } from '../src/domain/index.ts';
import { arrivalCard, checkCard, packingCard, sentCard, weatherCard } from '../src/reply/index.ts';
import { type Answer, type Command, type Ctx, leaf } from './command.ts';
import { momentOf, number, optionalFlag, optionalNumber, optionalText, text, whenOption } from './options.ts';
import { keptPhoto, photo, photoOption } from './photo.ts';
import { areaOption, dayIn, regionOption, saleOption } from './saleOptions.ts';
import { refused, voiceOf } from './voice.ts';

const check = leaf({
  path: 'dispatch check',
  description: 'May a parcel leave on that day, and if not, why and when next',
  options: [
    { name: 'date', description: 'Which day: "Mon", "15 Mar"', type: 'text', required: true },
    areaOption,
    regionOption,
  ],
  input: z.object({ date: text, area: optionalText, region: optionalText }),
  run: ({ date, area, region: typed }, ctx) => {
    const day = dayIn(ctx, date);
    if (!day.ok) return refused(ctx, day.fault);
    const region = typed === undefined ? ok(null) : regionOf(typed);
    if (!region.ok) return refused(ctx, region.fault);
    const to = { area: area?.trim() || null, region: region.value };
    const judged = judgeDay(ctx.desk, day.value ?? todayOf(ctx.desk), to);
    return { card: checkCard(voiceOf(ctx), judged, to.area ?? to.region) };
  },
});

export const weatherLeaf = leaf({
  path: 'dispatch weather',
  description: 'Keep a forecast for a place on a day',
  options: [
    { name: 'date', description: 'Which day', type: 'text', required: true },
    { ...areaOption, description: 'Where; "home" is where parcels leave from', required: true },
    { name: 'low', description: 'Low of the night', type: 'number', required: true },
    { name: 'high', description: 'High of the day', type: 'number', required: true },
  ],
  input: z.object({ date: text, area: text, low: number, high: number }),
  run: ({ date, area, low, high }, ctx) => {
    const day = dayIn(ctx, date);
    if (!day.ok) return refused(ctx, day.fault);
    const inCelsius = (typed: number): number => (businessOf(ctx.desk).units === 'us' ? celsiusOf(typed) : typed);
    const forecast = { day: day.value ?? todayOf(ctx.desk), area, lowC: inCelsius(low), highC: inCelsius(high) };
    const logged = logWeather(ctx.desk, ctx.by, forecast);
    if (!logged.ok) return refused(ctx, logged.fault);
    return { card: weatherCard(voiceOf(ctx), ctx.by.name, logged.value) };
  },
});

/** The packing list of a day as it stands. */
export const packingOn = (ctx: Ctx, day: LocalDay): Answer => ({
  card: packingCard(voiceOf(ctx), packingList(ctx.desk, day)),
});

const day = leaf({
  path: 'dispatch day',
  description: 'The packing list: parcels, from which tubs to catch, notes',
  options: [{ name: 'date', description: 'Which day; today if not said', type: 'text' }],
  input: z.object({ date: optionalText }),
  run: ({ date }, ctx) => {
    const found = dayIn(ctx, date);
    return found.ok ? packingOn(ctx, found.value ?? todayOf(ctx.desk)) : refused(ctx, found.fault);
  },
});

/** A parcel that was sent, with the day on which it should arrive. */
export function sentAnswer(ctx: Ctx, sent: ParcelSent): Answer {
  const business = businessOf(ctx.desk);
  const expected = addDays(dayOf(sent.at, business.zone), business.transitDays);
  return { card: sentCard(voiceOf(ctx), ctx.by.name, sent, expected) };
}

export const sentLeaf = leaf({
  path: 'dispatch sent',
  description: 'Mark a parcel as sent: its animals leave the tubs',
  options: [saleOption, { name: 'tracking', description: 'Tracking number', type: 'text' }, whenOption],
  input: z.object({
    sale: text,
    tracking: optionalText,
    when: optionalText,
    again: z.enum(['parcel', 'tracking']).optional(),
    unpaid: optionalFlag,
    anyway: optionalFlag,
    short: optionalFlag,
  }),
  run: ({ when, ...input }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const sent = sendParcel(ctx.desk, ctx.by, { ...input, at: at.value });
    return sent.ok ? sentAnswer(ctx, sent.value) : refused(ctx, sent.fault);
  },
});

export const arrivedLeaf = leaf({
  path: 'dispatch arrived',
  description: 'How a parcel arrived; more dead than extras opens the claim',
  slow: 'channel',
  options: [
    saleOption,
    { name: 'dead', description: 'Found dead; none if not said', type: 'integer' },
    { name: 'delivered', description: 'When the carrier delivered, if not now', type: 'text' },
    photoOption,
  ],
  input: z.object({ sale: text, dead: optionalNumber, delivered: optionalText, photo }),
  run: async ({ sale, dead, delivered, photo: attached }, ctx) => {
    const deliveredAt = momentOf(ctx, delivered);
    if (!deliveredAt.ok) return refused(ctx, deliveredAt.fault);
    const input = { sale, dead, deliveredAt: deliveredAt.value };
    const possible = arrivalPossible(ctx.desk, input);
    if (!possible.ok) return refused(ctx, possible.fault);
    const kept = await keptPhoto(ctx, attached);
    if (!kept.ok) return refused(ctx, kept.fault);
    const logged = logArrival(ctx.desk, ctx.by, { ...input, photo: kept.value });
    return logged.ok ? { card: arrivalCard(voiceOf(ctx), ctx.by.name, logged.value) } : refused(ctx, logged.fault);
  },
});

export const dispatch: Command = {
  name: 'dispatch',
  description: 'Sending: may it go, what to pack, sent, arrived',
  leaves: [check, weatherLeaf, day, sentLeaf, arrivedLeaf],
};
