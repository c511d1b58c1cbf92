import { businessOf } from '../src/desk/index.ts';
import { type Refusal, refusalCard, type Voice, voiceFor } from '../src/reply/index.ts';
import type { Answer, Ctx } from './command.ts';

/** Where and when the asker reads. */
export const voiceOf = (ctx: Ctx): Voice => voiceFor(businessOf(ctx.desk), ctx.now);

/** Refusals are for the asker alone. */
export const refused = (ctx: Ctx, fault: Refusal): Answer => ({ card: refusalCard(voiceOf(ctx), fault), private: true });
