import { z } from 'zod';
import { businessOf, postsBetween, todayOf } from '../src/desk/index.ts';
import {
  addDays,
  dayMs,
  fail,
  hourMs,
  type Instant,
  instantAt,
  minuteMs,
  ok,
  parseWallTime,
  plusMs,
  type Refusal,
  type Result,
  type WallTime,
} from '../src/domain/index.ts';
import { clockCard, voiceFor } from '../src/reply/index.ts';
import { parseDayWords, parseWhen } from '../src/words/index.ts';
import { type Command, type Ctx, leaf } from './command.ts';
import { optionalText } from './options.ts';
import { refused } from './voice.ts';

/** How far the clock goes at once: every post on the way is sent. */
const mostDays = 366;

const unitMs: Readonly<Record<string, number>> = { w: 7 * dayMs, d: dayMs, h: hourMs, m: minuteMs };
const stretch = /(\d+(?:[.,]\d+)?) *(weeks?|w|days?|d|hours?|h|minutes?|min|m)\b *(?:,|and)? */gi;

/** Milliseconds that "3 days", "90 minutes" or "1 day 6 hours" last; undefined for anything else. */
function stretchMs(typed: string): number | undefined {
  if (typed.trim() === '' || typed.trim().replace(stretch, '') !== '') return undefined;
  let ms = 0;
  for (const [, count = '', unit = ''] of typed.matchAll(stretch)) {
    ms += Number(count.replace(',', '.')) * (unitMs[unit.charAt(0).toLowerCase()] ?? 0);
  }
  return Math.round(ms);
}

/** The moment that "2027-03-01", "1 Mar", "tomorrow 08:00", "18:00" or an instant names; a day alone is its beginning. */
function momentAhead(ctx: Ctx, typed: string): Result<Instant, Refusal> {
  const { zone } = businessOf(ctx.desk);
  const today = todayOf(ctx.desk);
  const time = parseWallTime(typed);
  if (time !== undefined) {
    const at = instantAt(today, time, zone);
    return ok(at > ctx.now ? at : instantAt(addDays(today, 1), time, zone));
  }
  const day = parseDayWords(typed, { today, zone });
  const when = parseWhen(typed, { now: ctx.now, zone });
  if (when.ok && (!when.value.dayOnly || !day.ok)) return ok(when.value.at);
  return day.ok ? ok(instantAt(day.value, '00:00' as WallTime, zone)) : day;
}

function targetOf(ctx: Ctx, to: string | undefined, forward: string | undefined): Result<Instant, Refusal> {
  if (forward !== undefined) {
    const ms = stretchMs(forward);
    if (ms === undefined) {
      return fail({ kind: 'bad-words', what: 'time', typed: forward, example: '3 days, or 90 minutes' });
    }
    return within(ctx, plusMs(ctx.now, ms));
  }
  const at = momentAhead(ctx, to ?? '');
  return at.ok ? within(ctx, at.value) : at;
}

function within(ctx: Ctx, at: Instant): Result<Instant, Refusal> {
  if (at <= ctx.now) return fail({ kind: 'clock-back', to: at, now: ctx.now });
  const days = Math.ceil((Date.parse(at) - Date.parse(ctx.now)) / dayMs);
  return days <= mostDays
    ? ok(at)
    : fail({ kind: 'impossible-amount', amount: 'days', typed: days, min: 1, max: mostDays, whole: false });
}

const put = leaf({
  path: 'clock',
  description: 'Put the clock of this demonstration on; what falls due on the way happens',
  options: [
    { name: 'to', description: 'A date or a moment: "1 Mar", "tomorrow 08:00"', type: 'text' },
    { name: 'forward', description: 'Or how far: "3 days", "90 minutes"', type: 'text' },
  ],
  slow: 'channel',
  input: z.object({ to: optionalText, forward: optionalText }),
  run: async ({ to, forward }, ctx) => {
    const { desk, demoClock, now: from } = ctx;
    if (demoClock === null) {
      return {
        private: true,
        card: { title: 'The clock is the real one', why: ['It can be put on in a demonstration only'] },
      };
    }
    const voiceNow = () => voiceFor(businessOf(desk), desk.now());
    if (to === undefined && forward === undefined) return { card: clockCard(voiceNow(), null) };
    const target = targetOf(ctx, to, forward);
    if (!target.ok) return refused(ctx, target.fault);
    await demoClock.advanceTo(target.value);
    return { card: clockCard(voiceNow(), { from, posts: postsBetween(desk, from, desk.now()) }) };
  },
});

/** Registered in demonstrations only. */
export const clock: Command = { name: 'clock', description: put.description, leaves: [put] };
