import { z } from 'zod';
import { doneChore, findPartner, handOverChore, putOffChore, rota as rotaOf, rotaToday } from '../src/desk/index.ts';
import {
  changeCard,
  choreDoneCard,
  choreLaterCard,
  handOverCard,
  type Refusal,
  refusalCard,
  rotaTodayCard,
  rotaWeekCard,
  tickRows,
} from '../src/reply/index.ts';
import { type Answer, type Command, type Ctx, leaf, type OptionSpec } from './command.ts';
import { optionalFlag, optionalNumber, optionalText, text } from './options.ts';
import { refused, voiceOf } from './voice.ts';

const member = z.object({ userId: z.string(), name: z.string(), bot: z.boolean() });
const optionalMember = member.nullish().transform((value) => value ?? undefined);

const partnerOption: OptionSpec = { name: 'partner', description: 'Only theirs', type: 'member' };
const choreOption: OptionSpec = {
  name: 'chore',
  description: 'Which chore; what is due comes first',
  type: 'text',
  required: true,
  complete: 'chore',
};
const tubOption: OptionSpec = { name: 'tub', description: 'Which tub, or which rack', type: 'text', complete: 'tub' };

/** The name of the partner whose rota is asked for; null: everybody's. */
function whoseOf(ctx: Ctx, partner: z.infer<typeof optionalMember>) {
  if (partner === undefined) return { ok: true as const, value: null };
  const found = findPartner(ctx.desk, partner);
  return found.ok ? { ok: true as const, value: found.value.name } : found;
}

const today = leaf({
  path: 'rota today',
  description: 'Who does what today',
  options: [partnerOption],
  input: z.object({ partner: optionalMember }),
  run: ({ partner }, ctx) => {
    const whose = whoseOf(ctx, partner);
    if (!whose.ok) return refused(ctx, whose.fault);
    return { card: rotaTodayCard(voiceOf(ctx), rotaToday(ctx.desk), whose.value) };
  },
});

const week = leaf({
  path: 'rota week',
  description: 'Who does what in the week to come',
  options: [partnerOption],
  input: z.object({ partner: optionalMember }),
  run: ({ partner }, ctx) => {
    const whose = whoseOf(ctx, partner);
    if (!whose.ok) return refused(ctx, whose.fault);
    return { card: rotaWeekCard(voiceOf(ctx), rotaOf(ctx.desk), whose.value) };
  },
});

/** Ticks one chore; of a water change it logs the change itself. */
export const done = leaf({
  path: 'rota done',
  description: 'Tick a chore; a water change is logged with its planned litres',
  options: [choreOption, tubOption],
  input: z.object({ chore: text, tub: optionalText, litres: optionalNumber, second: optionalFlag }),
  run: (input, ctx) => {
    const ticked = doneChore(ctx.desk, ctx.by, input);
    if (!ticked.ok) return whichOne(ctx, ticked.fault);
    const { value } = ticked;
    const voice = voiceOf(ctx);
    return {
      card:
        value.of === 'change' ? changeCard(voice, ctx.by.name, value.logged) : choreDoneCard(voice, ctx.by.name, value),
    };
  },
});

/** Where several tubs are due, they come as a list to tick. */
function whichOne(ctx: Ctx, fault: Refusal): Answer {
  const answer = refused(ctx, fault);
  if (fault.kind !== 'which-target') return answer;
  const voice = voiceOf(ctx);
  const open = rotaToday(ctx.desk).filter((item) => item.done === null && item.due.chore.name === fault.chore);
  return { ...answer, card: { ...refusalCard(voice, fault), controls: tickRows('rota', voice.today, open, []) } };
}

const later = leaf({
  path: 'rota later',
  description: 'Put a chore off, and say why',
  options: [choreOption, { name: 'reason', description: 'Why it waits', type: 'text', required: true }, tubOption],
  input: z.object({ chore: text, reason: text, tub: optionalText }),
  run: (input, ctx) => {
    const put = putOffChore(ctx.desk, ctx.by, input);
    return put.ok ? { card: choreLaterCard(voiceOf(ctx), ctx.by.name, put.value) } : refused(ctx, put.fault);
  },
});

const handOver = leaf({
  path: 'rota hand-over',
  description: 'Hand a chore to a partner until it is done',
  options: [choreOption, { name: 'partner', description: 'Who does it', type: 'member', required: true }, tubOption],
  input: z.object({ chore: text, partner: member, tub: optionalText }),
  run: (input, ctx) => {
    const handed = handOverChore(ctx.desk, ctx.by, input);
    return handed.ok ? { card: handOverCard(voiceOf(ctx), ctx.by.name, handed.value) } : refused(ctx, handed.fault);
  },
});

export const rota: Command = {
  name: 'rota',
  description: 'Who does what, and what is done',
  leaves: [today, week, done, later, handOver],
};
