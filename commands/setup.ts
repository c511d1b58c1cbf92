import { z } from 'zod';
import { cover, removePartner, setLine, setOutlet, setPartner } from '../src/desk/index.ts';
import { lineCard, outletCard, partnerCard, partnerRemovedCard, withCover } from '../src/reply/index.ts';
import { minorOf } from './amounts.ts';
import { type Command, leaf } from './command.ts';
import { optionalFlag, optionalNumber, optionalText, text } from './options.ts';
import { idsInTrouble, settingLeaves } from './setupPages.ts';
import { dayOrNull } from './setupWords.ts';
import { refused, voiceOf, withSetupStep } from './voice.ts';

export const lineLeaf = leaf({
  path: 'setup line',
  description: 'Add a colour line, or change one',
  ownerOnly: true,
  options: [
    { name: 'line', description: 'Its name', type: 'text', required: true, complete: 'line' },
    { name: 'price', description: 'Price of one animal', type: 'number' },
    { name: 'saleable-mm', description: 'Length at which it is saleable, mm', type: 'number' },
    { name: 'hold-back', description: 'Breeders held back per tub', type: 'number' },
  ],
  input: z.object({ line: text, price: optionalNumber, 'saleable-mm': optionalNumber, 'hold-back': optionalNumber }),
  run: (input, ctx) => {
    const priceMinor = minorOf(ctx, 'price', input.price);
    if (!priceMinor.ok) return refused(ctx, priceMinor.fault);
    const set = setLine(ctx.desk, ctx.by, {
      line: input.line,
      priceMinor: priceMinor.value,
      saleableMm: input['saleable-mm'],
      holdBack: input['hold-back'],
    });
    return set.ok
      ? { card: withSetupStep(ctx, lineCard(voiceOf(ctx), set.value)), private: true }
      : refused(ctx, set.fault);
  },
});

const outlet = leaf({
  path: 'setup outlet',
  description: 'A selling place and its fees',
  ownerOnly: true,
  options: [
    { name: 'outlet', description: 'Its name', type: 'text', required: true, complete: 'outlet' },
    { name: 'percent', description: 'Share it takes, per cent', type: 'number' },
    { name: 'fixed', description: 'Fixed fee a sale', type: 'number' },
    { name: 'on-postage', description: 'Whether the share counts on postage too', type: 'boolean' },
  ],
  input: z.object({ outlet: text, percent: optionalNumber, fixed: optionalNumber, 'on-postage': optionalFlag }),
  run: (input, ctx) => {
    const fixedMinor = minorOf(ctx, 'amount', input.fixed);
    if (!fixedMinor.ok) return refused(ctx, fixedMinor.fault);
    const set = setOutlet(ctx.desk, ctx.by, {
      outlet: input.outlet,
      percent: input.percent,
      fixedMinor: fixedMinor.value,
      onPostage: input['on-postage'],
    });
    return set.ok
      ? { card: withSetupStep(ctx, outletCard(voiceOf(ctx), set.value.outlet, set.value.added)), private: true }
      : refused(ctx, set.fault);
  },
});

const member = z.object({ userId: z.string(), name: z.string(), bot: z.boolean() });

const partner = leaf({
  path: 'setup partner',
  description: 'Who shares the work, and in what proportion',
  ownerOnly: true,
  options: [
    { name: 'partner', description: 'The person', type: 'member', required: true },
    { name: 'share', description: 'Part of the chore minutes, per cent; equal parts if not said', type: 'number' },
    { name: 'never', description: 'Chores this person never does, with commas; "none" clears', type: 'text' },
    { name: 'away-from', description: 'First day away; "none" clears', type: 'text' },
    { name: 'away-to', description: 'Last day away', type: 'text' },
    { name: 'owner', description: 'May change settings', type: 'boolean' },
    { name: 'remove', description: 'No longer a partner', type: 'boolean' },
  ],
  input: z.object({
    partner: member,
    share: optionalNumber,
    never: optionalText,
    'away-from': optionalText,
    'away-to': optionalText,
    owner: optionalFlag,
    remove: optionalFlag,
  }),
  run: (input, ctx) => {
    if (input.remove === true) {
      const removed = removePartner(ctx.desk, ctx.by, input.partner);
      return removed.ok ? { card: partnerRemovedCard(removed.value), private: true } : refused(ctx, removed.fault);
    }
    const awayFrom = dayOrNull(ctx, input['away-from']);
    if (!awayFrom.ok) return refused(ctx, awayFrom.fault);
    const awayTo = dayOrNull(ctx, input['away-to']);
    if (!awayTo.ok) return refused(ctx, awayTo.fault);
    const troubled = new Set(idsInTrouble(ctx));
    const never = input.never === undefined ? undefined : namesIn(input.never);
    const set = setPartner(ctx.desk, ctx.by, {
      partner: input.partner,
      sharePercent: input.share,
      never,
      awayFrom: awayFrom.value,
      awayTo: awayTo.value,
      owner: input.owner,
    });
    if (!set.ok) return refused(ctx, set.fault);
    const card = withSetupStep(ctx, partnerCard(voiceOf(ctx), set.value));
    if (input['away-from'] === undefined && input['away-to'] === undefined) return { card, private: true };
    const toMove = idsInTrouble(ctx);
    const isWorse = toMove.some((id) => !troubled.has(id));
    return { card: withCover(voiceOf(ctx), card, cover(ctx.desk), isWorse ? toMove : []), private: true };
  },
});

/** "Feed, Pest look" → names; "none" → none. */
const namesIn = (typed: string): string[] =>
  /^\s*none\s*$/i.test(typed)
    ? []
    : typed
        .split(',')
        .map((name) => name.trim())
        .filter((name) => name !== '');

export const setup: Command = {
  name: 'setup',
  description: 'The business, its people, lines and rules',
  leaves: [...settingLeaves, lineLeaf, outlet, partner],
};
