import { type ChoreTicked, roundFrom, tickAtStop, todayOf } from '../src/desk/index.ts';
import { parseDay } from '../src/domain/index.ts';
import { type RoundTick, roundCard, roundLeftCard } from '../src/reply/index.ts';
import type { ActHandlers, Answer, Ctx } from './command.ts';
import { alreadyDone, question } from './rotaTicks.ts';
import { voiceOf } from './voice.ts';

type Place = Parameters<typeof roundFrom>[1];

const cardFrom = (ctx: Ctx, place: Place, before: RoundTick | null = null) =>
  roundCard(voiceOf(ctx), roundFrom(ctx.desk, place), before);

/** A message of an earlier day goes on with today's round from its beginning, and ticks nothing of today by mistake. */
const isToday = (ctx: Ctx, day: string): boolean => parseDay(day) === todayOf(ctx.desk);

/** Ticks what was tapped; the message goes on to what is still open here, else to the next stop. */
async function tick(ctx: Ctx, at: string, chore: number): Promise<Answer> {
  const { ticked, refused } = tickAtStop(ctx.desk, ctx.by, todayOf(ctx.desk), at, chore);
  const before =
    ticked.length === 0
      ? null
      : { by: ctx.by.name, what: ticked.flatMap(doneThings), entries: ticked.map(({ entryId }) => entryId) };
  const settle = cardFrom(ctx, { at, beyond: false }, before);
  const [first] = refused;
  if (first !== undefined) return { ...(await question(ctx, first)), settle };
  return ticked.length === 0 ? { settle, card: alreadyDone, private: true } : { settle };
}

function doneThings(ticked: ChoreTicked): RoundTick['what'] {
  if (ticked.of === 'tick') return ticked.targets.map((target) => ({ chore: ticked.chore.name, target }));
  const { id, name, rack } = ticked.logged.tub;
  return [{ chore: 'water change', target: { of: 'tub', tubId: id, name, rack } }];
}

export const roundActs = {
  round: (_, ctx) => ({ card: cardFrom(ctx, null) }),
  'round-done': ({ day, at, chore }, ctx) =>
    isToday(ctx, day) ? tick(ctx, at, chore) : { settle: cardFrom(ctx, null) },
  'round-next': ({ day, at }, ctx) => ({ settle: cardFrom(ctx, isToday(ctx, day) ? { at, beyond: true } : null) }),
  'round-leave': (_, ctx) => ({ settle: roundLeftCard(voiceOf(ctx), roundFrom(ctx.desk, null), ctx.by.name) }),
} satisfies Partial<ActHandlers>;
