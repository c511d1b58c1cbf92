import { z } from 'zod';
import { freeOf, startTrouble, type TroubleState, troubleAsked, troubleOf, troubleOfId } from '../src/desk/index.ts';
import {
  changedFromCode,
  changedFromValues,
  firstAidCard,
  seenFromValues,
  troubleAnsweredCard,
  troubleChangedCard,
  troubleSeenCard,
} from '../src/reply/index.ts';
import { type ActHandlers, type Answer, type Command, type Ctx, leaf } from './command.ts';
import { text, tubOption } from './options.ts';
import { gone, refused, voiceOf } from './voice.ts';

const firstAidOf = (ctx: Ctx, state: TroubleState, isNew: boolean) =>
  firstAidCard(voiceOf(ctx), state, freeOf(ctx.desk, state.tub.lineId), isNew);

const ask = leaf({
  path: 'trouble',
  description: 'First aid for a tub: what changed, what is seen',
  options: [tubOption],
  input: z.object({ tub: text }),
  run: ({ tub }, ctx): Answer => {
    const found = troubleOf(ctx.desk, ctx.by, tub);
    if (!found.ok) return refused(ctx, found.fault);
    const { running } = found.value;
    if (running !== null) return { card: firstAidOf(ctx, running, false) };
    return { card: troubleChangedCard(voiceOf(ctx), troubleAsked(ctx.desk, found.value.tub)), private: true };
  },
});

export const trouble: Command = { name: 'trouble', description: ask.description, leaves: [ask] };

export const troubleActs = {
  'trouble-ask': ({ tub: id }, ctx) => {
    const found = troubleOfId(ctx.desk, ctx.by, id);
    if (found === undefined) return gone;
    return { card: troubleChangedCard(voiceOf(ctx), troubleAsked(ctx.desk, found.tub)), private: true };
  },
  'trouble-changed': ({ tub: id, from }, ctx, { values }) => {
    const found = troubleOfId(ctx.desk, ctx.by, id);
    const changed = changedFromValues(values);
    if (found === undefined || changed.length === 0) return gone;
    const card = troubleSeenCard(found.tub, changed);
    // Under the card of a loss the question comes apart: that card stays.
    return from === 'ask' ? { settle: card } : { card, private: true };
  },
  'trouble-seen': ({ tub: id, changed: code }, ctx, { values }) => {
    const found = troubleOfId(ctx.desk, ctx.by, id);
    const said = { changed: changedFromCode(code), seen: seenFromValues(values) };
    if (found === undefined || said.changed.length === 0 || said.seen.length === 0) return gone;
    const started = startTrouble(ctx.desk, ctx.by, found.tub, said);
    return { settle: troubleAnsweredCard(found.tub, said), card: firstAidOf(ctx, started, true) };
  },
  'trouble-show': ({ tub: id }, ctx) => {
    const found = troubleOfId(ctx.desk, ctx.by, id);
    if (found === undefined) return gone;
    if (found.running !== null) return { card: firstAidOf(ctx, found.running, false) };
    return { card: troubleChangedCard(voiceOf(ctx), troubleAsked(ctx.desk, found.tub)), private: true };
  },
} satisfies Partial<ActHandlers>;
