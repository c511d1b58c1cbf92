import { z } from 'zod';
import { addChore, allChores, choreOwner, editChore } from '../src/desk/index.ts';
import { choreGrounds, choreScopes, choreSeasons } from '../src/domain/index.ts';
import { choreAddedCard, choreEditedCard, choreListCard } from '../src/reply/index.ts';
import { type Command, leaf, type OptionSpec } from './command.ts';
import { number, optionalFlag, optionalNumber, text } from './options.ts';
import { refused, voiceOf } from './voice.ts';

const optionalMember = z
  .object({ userId: z.string(), name: z.string(), bot: z.boolean() })
  .nullish()
  .transform((value) => value ?? undefined);

const optionalOf = <const T extends readonly [string, ...string[]]>(choices: T) =>
  z
    .enum(choices)
    .nullish()
    .transform((value) => value ?? undefined);

const seasonOption: OptionSpec = {
  name: 'season',
  description: 'All year, or half of it: warm is May to October, in the south November to April',
  type: 'text',
  choices: choreSeasons,
};
const dependsOption: OptionSpec = {
  name: 'depends-on',
  description: 'Warmth: longer in cool water. Young, hatch, hold, claim: only while there are any',
  type: 'text',
  choices: choreGrounds,
};

const add = leaf({
  path: 'chore add',
  description: 'Add work that comes again',
  options: [
    { name: 'name', description: 'What it is called', type: 'text', required: true },
    { name: 'every-days', description: 'Days from one time to the next', type: 'number', required: true },
    { name: 'minutes', description: 'How long it takes each time', type: 'number', required: true },
    { name: 'scope', description: 'For each tub, each rack, or once', type: 'text', choices: choreScopes },
    seasonOption,
    dependsOption,
    { name: 'partner', description: 'Who always does it; shared if not said', type: 'member' },
  ],
  input: z.object({
    name: text,
    'every-days': number,
    minutes: number,
    scope: optionalOf(choreScopes),
    season: optionalOf(choreSeasons),
    'depends-on': optionalOf(choreGrounds),
    partner: optionalMember,
  }),
  run: ({ 'every-days': everyDays, 'depends-on': dependsOn, ...input }, ctx) => {
    const added = addChore(ctx.desk, ctx.by, { ...input, everyDays, dependsOn });
    return added.ok ? { card: choreAddedCard(voiceOf(ctx), ctx.by.name, added.value) } : refused(ctx, added.fault);
  },
});

const edit = leaf({
  path: 'chore edit',
  description: 'Change a chore, or turn it off',
  options: [
    { name: 'chore', description: 'Which chore', type: 'text', required: true, complete: 'chore' },
    { name: 'every-days', description: 'Days from one time to the next', type: 'number' },
    { name: 'minutes', description: 'How long it takes each time', type: 'number' },
    seasonOption,
    dependsOption,
    { name: 'partner', description: 'Who always does it; the same once more makes it shared', type: 'member' },
    { name: 'off', description: 'True takes it off the rota, false puts it back', type: 'boolean' },
  ],
  input: z.object({
    chore: text,
    'every-days': optionalNumber,
    minutes: optionalNumber,
    season: optionalOf(choreSeasons),
    'depends-on': optionalOf(choreGrounds),
    partner: optionalMember,
    off: optionalFlag,
  }),
  run: ({ 'every-days': everyDays, 'depends-on': dependsOn, ...input }, ctx) => {
    const edited = editChore(ctx.desk, ctx.by, ctx.owner, { ...input, everyDays, dependsOn });
    return edited.ok ? { card: choreEditedCard(voiceOf(ctx), ctx.by.name, edited.value) } : refused(ctx, edited.fault);
  },
});

const list = leaf({
  path: 'chore list',
  description: 'Every chore, how often it comes and whose it is',
  options: [],
  input: z.object({}),
  run: (_, ctx) => ({
    card: choreListCard(allChores(ctx.desk).map((each) => ({ chore: each, owner: choreOwner(ctx.desk, each) }))),
  }),
});

export const chore: Command = { name: 'chore', description: 'The chores of the rota', leaves: [add, edit, list] };
