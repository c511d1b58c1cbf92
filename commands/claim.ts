import { z } from 'zod';
import { claimOn, claimPossible, claimRecord, openClaim, resendOf, saleById, settleClaim } from '../src/desk/index.ts';
import { animalsOf, arrivalOutcome, settlements } from '../src/domain/index.ts';
import { buyerTextCard, claimCard, claimRecordCard, claimSettledCard } from '../src/reply/index.ts';
import { minorOf } from './amounts.ts';
import { type ActHandlers, type Answer, type Command, type Ctx, leaf } from './command.ts';
import { momentOf, number, optionalNumber, optionalText, text, whenOption } from './options.ts';
import { keptPhoto, photo, photoOption } from './photo.ts';
import { runLeaf } from './run.ts';
import { saleOption } from './saleOptions.ts';
import { gone, refused, voiceOf } from './voice.ts';

const open = leaf({
  path: 'claim open',
  description: 'Open a claim: checks terms and evidence, proposes refund or resend',
  slow: 'channel',
  options: [
    saleOption,
    { name: 'dead', description: 'Found dead', type: 'integer', required: true },
    photoOption,
    { ...whenOption, description: 'When the buyer reported it, if not now' },
    { name: 'note', description: 'Anything worth keeping', type: 'text' },
  ],
  input: z.object({ sale: text, dead: number, photo, when: optionalText, note: optionalText }),
  run: async ({ sale, dead, photo: attached, when, note }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const input = { sale, dead, at: at.value, note };
    const possible = claimPossible(ctx.desk, input);
    if (!possible.ok) return refused(ctx, possible.fault);
    const kept = await keptPhoto(ctx, attached);
    if (!kept.ok) return refused(ctx, kept.fault);
    const opened = openClaim(ctx.desk, ctx.by, { ...input, photo: kept.value });
    return opened.ok ? { card: claimCard(voiceOf(ctx), ctx.by.name, opened.value) } : refused(ctx, opened.fault);
  },
});

const settle = leaf({
  path: 'claim settle',
  description: 'Answer a claim, once: refund, resend or decline',
  options: [
    saleOption,
    { name: 'how', description: 'With what', type: 'text', required: true, choices: settlements },
    { name: 'amount', description: 'Of the refund; what the terms say if not said', type: 'number' },
  ],
  input: z.object({ sale: text, how: z.enum(settlements), amount: optionalNumber }),
  run: ({ sale, how, amount }, ctx) => {
    const amountMinor = minorOf(ctx, 'amount', amount);
    if (!amountMinor.ok) return refused(ctx, amountMinor.fault);
    const settled = settleClaim(ctx.desk, ctx.by, { sale, how, amountMinor: amountMinor.value });
    return settled.ok
      ? { card: claimSettledCard(voiceOf(ctx), ctx.by.name, settled.value) }
      : refused(ctx, settled.fault);
  },
});

/** Months that the record looks back over when nobody says. */
const recordMonths = 12;

const record = leaf({
  path: 'claim record',
  description: 'How animals arrived, by line, tub and way, and what the guarantee costs',
  options: [{ name: 'months', description: 'How far back; 12 if not said', type: 'integer' }],
  input: z.object({ months: optionalNumber, by: z.enum(['way', 'tub']).optional() }),
  run: ({ months = recordMonths, by = 'way' }, ctx) => {
    const found = claimRecord(ctx.desk, months);
    return found.ok ? { card: claimRecordCard(voiceOf(ctx), found.value, by) } : refused(ctx, found.fault);
  },
});

export const claim: Command = {
  name: 'claim',
  description: 'Claims over animals that arrived dead',
  leaves: [open, settle, record],
};

/** The claim of a sale as it stands, to be answered. */
function showClaim(ctx: Ctx, sale: number): Answer {
  const found = claimOn(ctx.desk, String(sale));
  return found.ok
    ? { card: claimCard(voiceOf(ctx), ctx.by.name, { ...found.value, entryId: null }) }
    : refused(ctx, found.fault);
}

/** A text to the buyer about the arrival and the claim, for the asker to copy. */
function buyerText(ctx: Ctx, id: number): Answer {
  const sale = saleById(ctx.desk, id);
  if (sale === undefined) return gone;
  const { ordered, sent } = animalsOf(sale);
  const dead = Math.min(sent, sale.claim?.dead ?? sale.arrival?.dead ?? 0);
  const { alive } = arrivalOutcome({ sent, dead, ordered });
  const resend = resendOf(ctx.desk, id);
  const facts = { sale, dead, ordered, alive, resend };
  return { card: buyerTextCard(voiceOf(ctx), facts), private: true };
}

export const claimActs = {
  'claim-show': ({ sale }, ctx) => showClaim(ctx, sale),
  'claim-anyway': ({ sale }, ctx) => {
    const dead = saleById(ctx.desk, sale)?.arrival?.dead;
    return dead === undefined ? gone : runLeaf(open, { sale: String(sale), dead }, ctx);
  },
  'claim-settle': ({ sale, how }, ctx) => runLeaf(settle, { sale: String(sale), how }, ctx),
  'claim-record': ({ months, by }, ctx) => runLeaf(record, { months, by: by === 'tub' ? 'tub' : 'way' }, ctx),
  'arrival-text': ({ sale }, ctx) => buyerText(ctx, sale),
} satisfies Partial<ActHandlers>;
