import { z } from 'zod';
import { type BusinessPatch, businessOf, salesInTrouble, setBusiness } from '../src/desk/index.ts';
import { celsiusOf, type Refusal, type Result, type Weekday } from '../src/domain/index.ts';
import { type SetupPage, setupCard, withSalesToMove } from '../src/reply/index.ts';
import { parseKitSteps, parseWeekdays } from '../src/words/index.ts';
import type { Answer, Ctx, Leaf } from './command.ts';
import { leaf } from './command.ts';
import { optionalFlag, optionalNumber, optionalText } from './options.ts';
import { timeOrNothing } from './setupWords.ts';
import { refused, voiceOf, withSetupStep } from './voice.ts';

/** Sets what was given and shows the page; without anything given it only shows. Settings are for the asker alone. */
function page(ctx: Ctx, name: SetupPage, patch: BusinessPatch): Answer {
  const troubled = new Set(idsInTrouble(ctx));
  const set = setBusiness(ctx.desk, ctx.by, patch);
  if (!set.ok) return refused(ctx, set.fault);
  const changed = Object.values(patch).some((value) => value !== undefined);
  const card = withSetupStep(ctx, setupCard(voiceOf(ctx), set.value, name, changed));
  const toMove = idsInTrouble(ctx);
  return { card: toMove.some((id) => !troubled.has(id)) ? withSalesToMove(card, toMove) : card, private: true };
}

/** Open sales whose day is not good by the settings as they stand. */
export const idsInTrouble = ({ desk }: Ctx): number[] => salesInTrouble(desk).map(({ sale }) => sale.id);

/** The value of a typed word, undefined where nothing was typed, or the refusal of what was not understood. */
const maybe = <T>(
  typed: string | undefined,
  parse: (text: string) => Result<T, Refusal>,
): Result<T | undefined, Refusal> => (typed === undefined ? { ok: true, value: undefined } : parse(typed));

const business = leaf({
  path: 'setup business',
  description: 'Show or set name, time zone, region, currency, units',
  ownerOnly: true,
  options: [
    { name: 'name', description: 'Name of the business', type: 'text' },
    { name: 'timezone', description: 'Like Europe/Lisbon', type: 'text' },
    { name: 'region', description: 'For public holidays: NL, GB-ENG, US-OR', type: 'text' },
    { name: 'currency', description: 'Like EUR', type: 'text' },
    { name: 'units', description: 'Metric, or US', type: 'text', choices: ['metric', 'us'] },
  ],
  input: z.object({
    name: optionalText,
    timezone: optionalText,
    region: optionalText,
    currency: optionalText,
    units: z.enum(['metric', 'us']).nullish(),
  }),
  run: (input, ctx) =>
    page(ctx, 'business', {
      name: input.name?.trim().slice(0, 60) || undefined,
      zone: input.timezone?.trim(),
      region: input.region?.trim().toUpperCase(),
      currency: input.currency?.trim().toUpperCase(),
      units: input.units ?? undefined,
    }),
});

/** 0 takes a target or a salt away. */
const orNone = (typed: number | undefined): number | null | undefined => (typed === 0 ? null : typed);

const water = leaf({
  path: 'setup water',
  description: 'Source water, kit and how you change',
  ownerOnly: true,
  options: [
    { name: 'source-nitrate', description: 'Nitrate of the source water as NO3, mg/L', type: 'number' },
    { name: 'source-tds', description: 'TDS of the source water, mg/L', type: 'number' },
    { name: 'source-gh', description: 'GH of the source water, °dGH', type: 'number' },
    { name: 'source-kh', description: 'KH of the source water, °dKH', type: 'number' },
    { name: 'target-gh', description: 'GH of the water you prepare, °dGH; 0: none', type: 'number' },
    { name: 'target-kh', description: 'KH of the water you prepare, °dKH; 0: none', type: 'number' },
    { name: 'target-tds', description: 'TDS of the water you prepare, mg/L; 0: none', type: 'number' },
    { name: 'target-nitrate', description: 'Most nitrate of the water you prepare, mg/L; 0: none', type: 'number' },
    { name: 'salt-gh', description: '°dGH that 1 g of your salt adds to 10 L; 0: none', type: 'number' },
    { name: 'salt-kh', description: '°dKH that 1 g of your salt adds to 10 L; 0: none', type: 'number' },
    { name: 'bucket', description: 'Litres of the bucket you prepare water in', type: 'number' },
    { name: 'jug', description: 'Litres of the jug with which it goes into a tub', type: 'number' },
    { name: 'altitude', description: 'Height above the sea, m', type: 'number' },
    { name: 'nitrate-limit', description: 'Stay under this, mg/L as NO3', type: 'number' },
    { name: 'min-percent', description: 'Smallest change, per cent', type: 'number' },
    { name: 'max-percent', description: 'Largest change, per cent', type: 'number' },
    { name: 'interval-days', description: 'Days between changes', type: 'number' },
    { name: 'kit-steps', description: 'Steps of the nitrate kit: 0 5 10 20 40 80 160', type: 'text' },
  ],
  input: z.object({
    'source-nitrate': optionalNumber,
    'source-tds': optionalNumber,
    'source-gh': optionalNumber,
    'source-kh': optionalNumber,
    'target-gh': optionalNumber,
    'target-kh': optionalNumber,
    'target-tds': optionalNumber,
    'target-nitrate': optionalNumber,
    'salt-gh': optionalNumber,
    'salt-kh': optionalNumber,
    bucket: optionalNumber,
    jug: optionalNumber,
    altitude: optionalNumber,
    'nitrate-limit': optionalNumber,
    'min-percent': optionalNumber,
    'max-percent': optionalNumber,
    'interval-days': optionalNumber,
    'kit-steps': optionalText,
  }),
  run: (input, ctx) => {
    const kitStepsMgL = maybe(input['kit-steps'], parseKitSteps);
    if (!kitStepsMgL.ok) return refused(ctx, kitStepsMgL.fault);
    return page(ctx, 'water', {
      sourceNitrateMgL: input['source-nitrate'],
      sourceTdsMgL: input['source-tds'],
      sourceGhDgh: input['source-gh'],
      sourceKhDkh: input['source-kh'],
      targetGhDgh: orNone(input['target-gh']),
      targetKhDkh: orNone(input['target-kh']),
      targetTdsMgL: orNone(input['target-tds']),
      targetNitrateMgL: orNone(input['target-nitrate']),
      saltGhDgh: orNone(input['salt-gh']),
      saltKhDkh: orNone(input['salt-kh']),
      bucketLitres: input.bucket,
      jugLitres: input.jug,
      altitudeM: input.altitude,
      nitrateLimitMgL: input['nitrate-limit'],
      changeMinPercent: input['min-percent'],
      changeMaxPercent: input['max-percent'],
      changeIntervalDays: input['interval-days'],
      kitStepsMgL: kitStepsMgL.value,
    });
  },
});

const dispatch = leaf({
  path: 'setup dispatch',
  description: 'Days, travel time and temperatures of parcels',
  ownerOnly: true,
  options: [
    { name: 'days', description: 'Weekdays on which parcels leave: Mon-Wed', type: 'text' },
    { name: 'transit-days', description: 'Days on the way', type: 'number' },
    { name: 'slack-days', description: 'Days of delay to allow for', type: 'number' },
    { name: 'min-temp', description: 'Lowest night low on the way, in your units', type: 'number' },
    { name: 'max-temp', description: 'Highest day high on the way, in your units', type: 'number' },
  ],
  input: z.object({
    days: optionalText,
    'transit-days': optionalNumber,
    'slack-days': optionalNumber,
    'min-temp': optionalNumber,
    'max-temp': optionalNumber,
  }),
  run: (input, ctx) => {
    const days = maybe<Weekday[]>(input.days, parseWeekdays);
    if (!days.ok) return refused(ctx, days.fault);
    const inCelsius = (typed: number | undefined) =>
      typed !== undefined && businessOf(ctx.desk).units === 'us' ? celsiusOf(typed) : typed;
    return page(ctx, 'dispatch', {
      dispatchDays: days.value,
      transitDays: input['transit-days'],
      slackDays: input['slack-days'],
      minTempC: inCelsius(input['min-temp']),
      maxTempC: inCelsius(input['max-temp']),
    });
  },
});

const terms = leaf({
  path: 'setup terms',
  description: 'How long a sale is kept, and your guarantee',
  ownerOnly: true,
  options: [
    { name: 'keep-days', description: 'Days that an unpaid sale is kept', type: 'number' },
    { name: 'claim-hours', description: 'Hours after delivery for a claim', type: 'number' },
    { name: 'photo', description: 'Whether you ask for a photo', type: 'boolean' },
    { name: 'postage-owed', description: 'Whether a refund covers postage', type: 'boolean' },
    { name: 'full-order-level', description: 'Per cent of orders that should arrive full', type: 'number' },
  ],
  input: z.object({
    'keep-days': optionalNumber,
    'claim-hours': optionalNumber,
    photo: optionalFlag,
    'postage-owed': optionalFlag,
    'full-order-level': optionalNumber,
  }),
  run: (input, ctx) =>
    page(ctx, 'terms', {
      keepDays: input['keep-days'],
      claimHours: input['claim-hours'],
      claimPhoto: input.photo,
      postageOwed: input['postage-owed'],
      fullOrderLevelPercent: input['full-order-level'],
    }),
});

const posts = leaf({
  path: 'setup posts',
  description: 'When and where the bot posts',
  ownerOnly: true,
  options: [
    { name: 'morning', description: 'Time of the morning post: 07:30', type: 'text' },
    { name: 'evening', description: 'Time of the evening post: 18:00', type: 'text' },
    { name: 'weekly-day', description: 'Day of the weekly post: Sun', type: 'text' },
    { name: 'weekly-time', description: 'Time of the weekly post: 17:00', type: 'text' },
    { name: 'channel', description: 'Channel of the posts', type: 'channel' },
  ],
  input: z.object({
    morning: optionalText,
    evening: optionalText,
    'weekly-day': optionalText,
    'weekly-time': optionalText,
    channel: optionalText,
  }),
  run: (input, ctx) => {
    const morningAt = timeOrNothing(input.morning);
    if (!morningAt.ok) return refused(ctx, morningAt.fault);
    const eveningAt = timeOrNothing(input.evening);
    if (!eveningAt.ok) return refused(ctx, eveningAt.fault);
    const weeklyAt = timeOrNothing(input['weekly-time']);
    if (!weeklyAt.ok) return refused(ctx, weeklyAt.fault);
    const days = maybe<Weekday[]>(input['weekly-day'], parseWeekdays);
    if (!days.ok) return refused(ctx, days.fault);
    return page(ctx, 'posts', {
      morningAt: morningAt.value,
      eveningAt: eveningAt.value,
      weeklyOn: days.value?.[0],
      weeklyAt: weeklyAt.value,
      channelId: input.channel,
    });
  },
});

/** The pages of the settings. */
export const settingLeaves: readonly Leaf[] = [business, water, dispatch, terms, posts];
