import {
  cover,
  eveningState,
  lateMinutesOf,
  morningPost,
  rota,
  rotaToday,
  type TickedTogether,
  tickChosen,
  tickRack,
  todayOf,
} from '../src/desk/index.ts';
import { type LocalDay, parseDay } from '../src/domain/index.ts';
import {
  type Card,
  coverCard,
  eveningCard,
  morningCard,
  overCard,
  refusalCard,
  rotaTodayCard,
  rotaWeekCard,
  type TickPlace,
  tickedTogetherCard,
  tickPlaces,
} from '../src/reply/index.ts';
import type { ActHandlers, Answer, Ctx } from './command.ts';
import { done } from './rota.ts';
import { runLeaf } from './run.ts';
import { gone, voiceOf } from './voice.ts';

/** What the message with the ticks turns into. */
function anew(ctx: Ctx, place: TickPlace, day: LocalDay): Card {
  const voice = voiceOf(ctx);
  const isOver = day !== todayOf(ctx.desk);
  switch (place) {
    case 'rota':
      return rotaTodayCard(voice, rotaToday(ctx.desk), null);
    case 'morning':
      return isOver
        ? overCard(voice, 'Morning', day)
        : morningCard(voice, morningPost(ctx.desk), lateMinutesOf(ctx.desk, 'morning', day));
    case 'evening':
      return isOver
        ? overCard(voice, 'Evening', day)
        : eveningCard(voice, eveningState(ctx.desk), lateMinutesOf(ctx.desk, 'evening', day));
  }
}

/** Ticks, makes the message anew, and asks the presser alone about what could not simply be logged. */
async function tick(
  ctx: Ctx,
  args: { readonly place: string; readonly day: string },
  work: (day: LocalDay) => TickedTogether,
): Promise<Answer> {
  const place = tickPlaces.find((known) => known === args.place);
  const day = parseDay(args.day);
  if (place === undefined || day === undefined) return gone;
  const { ticked, refused } = work(day);
  const settle = anew(ctx, place, day);
  const [first] = refused;
  if (first !== undefined) return { ...(await question(ctx, first)), settle };
  if (ticked.length === 0) return { settle, card: alreadyDone, private: true };
  return ticked.length === 1
    ? { settle }
    : { settle, card: tickedTogetherCard(ticked.map(({ entryId }) => entryId)), private: true };
}

export const alreadyDone: Card = {
  title: 'That was already done',
  why: ['One of you ticked it before, or it is no longer on the rota', 'Nothing more was logged'],
};

/** A water change that clashes with another is asked about as if it had been typed; anything else is said. */
export async function question(ctx: Ctx, { chore, tub, fault }: TickedTogether['refused'][number]): Promise<Answer> {
  if (!fault.kind.startsWith('ask-')) return { card: refusalCard(voiceOf(ctx), fault), private: true };
  const by = { ...ctx.by, key: `${ctx.by.key}#asked` };
  return { ...(await runLeaf(done, { chore, tub }, { ...ctx, by })), private: true };
}

/** The cover while all are away; where that was taken back since, nobody needs it. */
function coverOf(ctx: Ctx): Answer {
  const found = cover(ctx.desk);
  return found === null ? noCover : { card: coverCard(voiceOf(ctx), found) };
}

const noCover: Answer = {
  private: true,
  card: { title: 'Somebody is there', why: ['No days on which all partners are away are set'] },
};

export const rotaActs = {
  cover: (_, ctx) => coverOf(ctx),
  'rota-today': (_, ctx) => ({ card: rotaTodayCard(voiceOf(ctx), rotaToday(ctx.desk), null) }),
  'rota-week': (_, ctx) => ({ card: rotaWeekCard(voiceOf(ctx), rota(ctx.desk), null) }),
  'rota-ticks': (args, ctx, { values }) => tick(ctx, args, (day) => tickChosen(ctx.desk, ctx.by, day, values)),
  'rota-rack': (args, ctx) => tick(ctx, args, (day) => tickRack(ctx.desk, ctx.by, day, args.tub)),
} satisfies Partial<ActHandlers>;
