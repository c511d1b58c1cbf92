import { z } from 'zod';
import { addTubs, editTub, listTubs, retireTub, showTub, tubById } from '../src/desk/index.ts';
import { tubRoles } from '../src/domain/index.ts';
import { tubCard, tubEditedCard, tubListCard, tubRetiredCard, tubsAddedCard } from '../src/reply/index.ts';
import { parseRange } from '../src/words/index.ts';
import { type ActHandlers, type Command, type Ctx, leaf } from './command.ts';
import { number, optionalFlag, optionalNumber, optionalText, text, tubOption } from './options.ts';
import { gone, refused, voiceOf } from './voice.ts';

const netOption = {
  name: 'net-litres',
  description: 'Water in it without gravel and gap; 80 % if not said',
  type: 'number',
} as const;
const rackOption = {
  name: 'rack',
  description: 'Rack; the letters of its name if not said',
  type: 'text',
  complete: 'rack',
} as const;
const roleOption = {
  name: 'role',
  description: 'Breeding if not said; apart: not for sale',
  type: 'text',
  choices: tubRoles,
} as const;
const roles = z.enum(tubRoles).nullish();

export const addTubsLeaf = leaf({
  path: 'tub add',
  description: 'Add one tub, or a range like A1-A6',
  options: [
    { name: 'name', description: 'A1, or A1-A6 for six', type: 'text', required: true },
    { name: 'line', description: 'Colour line in it', type: 'text', required: true, complete: 'line' },
    { name: 'litres', description: 'Gross litres of each', type: 'number', required: true },
    netOption,
    rackOption,
    roleOption,
  ],
  input: z.object({
    name: text,
    line: text,
    litres: number,
    'net-litres': optionalNumber,
    rack: optionalText,
    role: roles,
  }),
  run: ({ name, line, litres, rack, role, 'net-litres': netLitres }, ctx) => {
    const names = parseRange(name);
    if (!names.ok) return refused(ctx, names.fault);
    const added = addTubs(ctx.desk, ctx.by, {
      names: names.value,
      line,
      litres,
      netLitres,
      rack,
      role: role ?? undefined,
    });
    return added.ok ? { card: tubsAddedCard(voiceOf(ctx), ctx.by.name, added.value) } : refused(ctx, added.fault);
  },
});

const showOne = (ctx: Ctx, tub: string) => {
  const state = showTub(ctx.desk, tub);
  return state.ok ? { card: tubCard(voiceOf(ctx), state.value) } : refused(ctx, state.fault);
};

const show = leaf({
  path: 'tub show',
  description: 'How a tub stands',
  options: [tubOption],
  input: z.object({ tub: text }),
  run: ({ tub }, ctx) => showOne(ctx, tub),
});

const list = leaf({
  path: 'tub list',
  description: 'Every tub on one screen, worst first',
  options: [
    { name: 'rack', description: 'One rack only', type: 'text', complete: 'rack' },
    { name: 'line', description: 'One line only', type: 'text', complete: 'line' },
  ],
  input: z.object({ rack: optionalText, line: optionalText }),
  run: (filter, ctx) => {
    const states = listTubs(ctx.desk, filter);
    return states.ok ? { card: tubListCard(voiceOf(ctx), states.value) } : refused(ctx, states.fault);
  },
});

const edit = leaf({
  path: 'tub edit',
  description: 'Change what is known of a tub',
  options: [
    tubOption,
    { name: 'name', description: 'New name', type: 'text' },
    { name: 'line', description: 'Colour line in it', type: 'text', complete: 'line' },
    { name: 'litres', description: 'Gross litres', type: 'number' },
    netOption,
    rackOption,
    roleOption,
  ],
  input: z.object({
    tub: text,
    name: optionalText,
    line: optionalText,
    litres: optionalNumber,
    'net-litres': optionalNumber,
    rack: optionalText,
    role: roles,
    sure: optionalFlag,
  }),
  run: ({ 'net-litres': netLitres, role, ...input }, ctx) => {
    const edited = editTub(ctx.desk, ctx.by, { ...input, netLitres, role: role ?? undefined });
    return edited.ok ? { card: tubEditedCard(voiceOf(ctx), ctx.by.name, edited.value) } : refused(ctx, edited.fault);
  },
});

const retire = leaf({
  path: 'tub retire',
  description: 'Take a tub out of use; its history stays',
  options: [tubOption, { name: 'reason', description: 'Why', type: 'text', required: true }],
  input: z.object({ tub: text, reason: text }),
  run: ({ tub, reason }, ctx) => {
    const retired = retireTub(ctx.desk, ctx.by, tub, reason);
    return retired.ok
      ? { card: tubRetiredCard(voiceOf(ctx), ctx.by.name, retired.value, reason) }
      : refused(ctx, retired.fault);
  },
});

export const tub: Command = { name: 'tub', description: 'The tubs', leaves: [addTubsLeaf, show, list, edit, retire] };

const showById = (ctx: Ctx, id: number) => {
  const found = tubById(ctx.desk, id);
  return found === undefined ? gone : showOne(ctx, found.name);
};

export const tubActs = {
  'tub-show': ({ tub: id }, ctx) => showById(ctx, id),
  'tub-pick': (_, ctx, { values }) => showById(ctx, Number(values[0])),
} satisfies Partial<ActHandlers>;
