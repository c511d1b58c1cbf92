import { businessOf, setupStep } from '../src/desk/index.ts';
import type { Instant } from '../src/domain/index.ts';
import {
  type Button,
  type Card,
  type Refusal,
  refusalCard,
  type Voice,
  voiceFor,
  withStep,
} from '../src/reply/index.ts';
import type { Answer, Ctx } from './command.ts';
import { wayOn } from './wayOn.ts';

/** Where and when the asker reads. */
export const voiceOf = (ctx: Ctx): Voice => voiceFor(businessOf(ctx.desk), ctx.now);

/** Refusals are for the asker alone. */
export function refused(ctx: Ctx, fault: Refusal): Answer {
  const voice = voiceOf(ctx);
  const card = refusalCard(voice, fault);
  const { controls: more = [], next } = wayOn(ctx, voice, fault);
  const controls = [...(card.controls ?? []), ...more];
  return {
    card: { ...card, ...(next !== undefined && { next }), ...(controls.length > 0 && { controls }) },
    private: true,
  };
}

/**
 * The refusal of an act with its moment. An offered way to log it after all keeps the moment as it is understood now: pressed tomorrow,
 * "yesterday" would be another day.
 */
export function refusedAct(ctx: Ctx, fault: Refusal, at: Instant | undefined): Answer {
  const { card, ...answer } = refused(ctx, fault);
  if (card?.offers === undefined) return { ...answer, ...(card !== undefined && { card }) };
  const offers = card.offers.map((offer) => ({ ...offer, patch: { ...offer.patch, when: at ?? ctx.now } }));
  return { ...answer, card: { ...card, offers } };
}

/** While set-up is not whole, a card that says nothing else to do ends with the one next step, on a button where a form does it. */
export function withSetupStep(ctx: Ctx, card: Card): Card {
  return withStep(card, setupStep(ctx.desk));
}

/** A control outlived what it was about. */
export const gone: Answer = {
  private: true,
  card: { title: 'That is no longer there', why: ['It was undone since'], next: 'Open the home card with /help' },
};

/** A form with texts where numbers belong; the button opens it again as it was typed. */
export const notNumbers = (bad: readonly string[], needed: string, retry: Button): Answer => ({
  private: true,
  card: {
    title: bad.length > 0 ? 'Not logged: a number is not understood' : `Not logged: ${needed} is missing`,
    why: bad.map((text) => `Not a number: ${text}`),
    next: 'Open the form again; what you typed is kept',
    controls: [[retry]],
  },
});

/** A refusal of what a form brought gets a button that opens the form again as it was typed. */
export function withRetry(answer: Answer, retry: () => Button): Answer {
  if (answer.private !== true || answer.card === undefined) return answer;
  const { card } = answer;
  const [first = [], ...others] = card.controls ?? [];
  const row =
    first[0]?.kind === 'select'
      ? [[retry()], first, ...others]
      : [[...(first as readonly Button[]), retry()], ...others];
  return { ...answer, card: { ...card, controls: row } };
}
