import { z } from 'zod';
import { type Desk, dropDraft, keepDraft, keptDraft, loggedBy } from '../src/desk/index.ts';
import { type Button, button, type Card, type Offer, type Press, press } from '../src/reply/index.ts';
import type { ActHandlers, Answer, Command, Ctx, Leaf, Pressed, RawInput } from './command.ts';
import { refused, withSetupStep } from './voice.ts';

/** What a draft keeps of the question beside the options: who asked it, its words, and what its buttons say and run. */
const question = z.object({
  key: z.string(),
  title: z.string(),
  why: z.array(z.string()),
  choices: z.array(z.object({ label: z.string(), path: z.string().nullable() })),
  given: z.record(z.string(), z.unknown()),
});

/**
 * Runs a leaf. Where its card offers ways to have the refused entry written after all, the entry is kept as a draft and each offer
 * becomes a button. Options that do not parse become a private answer.
 */
export async function runLeaf(leaf: Leaf, raw: RawInput, ctx: Ctx): Promise<Answer> {
  try {
    return withNextStep(ctx, withOffers(leaf, raw, ctx, await leaf.handle(raw, ctx)));
  } catch (error) {
    const faults = error instanceof z.ZodError ? optionFaults(leaf, error) : undefined;
    if (faults === undefined) throw error;
    return {
      private: true,
      card: {
        title: `Not logged: /${leaf.path} was not understood`,
        why: faults,
        next: 'Correct it and send the command again',
      },
    };
  }
}

/** Runs the handler of a press; that its arguments fit was checked where the custom id was read. */
export function runPress(acts: ActHandlers, pressed: Press, ctx: Ctx, came: Pressed): Answer | Promise<Answer> {
  const handler = acts[pressed.act] as (args: Press['args'], ctx: Ctx, came: Pressed) => Answer | Promise<Answer>;
  return handler(pressed.args, ctx, came);
}

/** A press of an offered button: the command with the offer's patch, written once however often and by whomever it is pressed. */
export async function again(
  args: { readonly draft: number; readonly choice: number },
  ctx: Ctx,
  commands: readonly Command[],
): Promise<Answer> {
  const taken = choiceOf(args, ctx.desk, commands);
  if (taken === undefined) return answeredAlready;
  const { asked, label, leaf, raw } = taken;
  if (leaf.ownerOnly === true && !ctx.owner) return refused(ctx, { kind: 'owner-only', what: `use /${leaf.path}` });
  // The numbers of drafts start anew with their file, so the key names the question too.
  const key = `draft:${args.draft}:${asked.key}`;
  if (loggedBy(ctx.desk, key) !== undefined) return answeredAlready;

  const answer = await runLeaf(leaf, raw, { ...ctx, by: { ...ctx.by, key } });
  if (loggedBy(ctx.desk, key) !== undefined) dropDraft(ctx.desk, args.draft);
  const line = `Taken: ${label} (${ctx.by.name})`;
  return { ...answer, settle: { title: asked.title, why: [...asked.why, line] } };
}

/** Whether the command behind an offered button is a slow one. */
export const isSlowAgain = (pressed: Press, desk: Desk, commands: readonly Command[]): boolean =>
  pressed.act === 'again' && choiceOf(pressed.args, desk, commands)?.leaf.slow !== undefined;

function choiceOf(args: { readonly draft: number; readonly choice: number }, desk: Desk, commands: readonly Command[]) {
  const draft = keptDraft(desk, args.draft);
  if (draft === undefined) return undefined;
  const { success, data: asked } = question.safeParse(draft.raw);
  if (!success) return undefined;
  const { label, path } = asked.choices[args.choice] ?? {};
  const leaf = leafAt(commands, path ?? draft.path);
  const patch = draft.patches[args.choice];
  if (label === undefined || leaf === undefined || patch === undefined) return undefined;
  return { asked, label, leaf, raw: typeof path === 'string' ? patch : { ...asked.given, ...patch } };
}

/** A press of "Leave it": the question goes, nothing is written. */
export const leaveIt = (): Answer => ({ settle: { title: 'Left: nothing was logged' } });

const answeredAlready: Answer = {
  private: true,
  card: {
    title: 'That was answered already',
    why: ['One of you pressed before, or the question is older than a week', 'Nothing more was saved'],
  },
};

const leafAt = (commands: readonly Command[], path: string): Leaf | undefined =>
  commands.flatMap(({ leaves }) => leaves).find((leaf) => leaf.path === path);

/** While set-up is not whole, an answer that says nothing else to do ends with the one next step. */
const withNextStep = (ctx: Ctx, answer: Answer): Answer =>
  answer.card === undefined || answer.card.next !== undefined
    ? answer
    : { ...answer, card: withSetupStep(ctx, answer.card) };

function withOffers(leaf: Leaf, raw: RawInput, ctx: Ctx, answer: Answer): Answer {
  const { offers: offered = [], ...card }: Card = answer.card ?? { title: '' };
  const offers = offered.flatMap((offer) => fitted(offer, raw));
  if (answer.card === undefined || offers.length === 0) return offered.length === 0 ? answer : { ...answer, card };
  const asked: z.infer<typeof question> = {
    key: ctx.by.key,
    title: card.title,
    why: [...(card.why ?? [])],
    choices: offers.map(({ label, path = null }) => ({ label, path })),
    given: raw,
  };
  const patches = offers.map(({ patch }) => patch);
  const draft = keepDraft(ctx.desk, { path: leaf.path, raw: asked, patches });
  const row = [
    ...offers.map((offer, choice) => offerButton(offer, draft, choice)),
    button('Leave it', press('leave-it', {})),
  ];
  return { ...answer, card: { ...card, controls: [row, ...(card.controls ?? [])] } };
}

/** An offer that names something else is one for the option that said what was typed; without such an option it is none. */
function fitted(offer: Offer, raw: RawInput): Offer[] {
  const { instead } = offer;
  if (instead === undefined) return [offer];
  const [option] = Object.entries(raw).find(([, value]) => value === instead.typed) ?? [];
  return option === undefined ? [] : [{ ...offer, patch: { ...offer.patch, [option]: instead.name } }];
}

const offerButton = (offer: Offer, draft: number, choice: number): Button =>
  button(offer.label, press('again', { draft, choice }), offer.tone ?? (choice === 0 ? 'main' : 'plain'));

/** What is wrong with which option; undefined where the error is about something else, which is a bug. */
function optionFaults(leaf: Leaf, error: z.ZodError): string[] | undefined {
  const names = new Set(leaf.options.map(({ name }) => name));
  if (!error.issues.every(({ path }) => names.has(String(path[0])))) return undefined;
  return error.issues.map((issue) => `${String(issue.path[0])}: ${faultOf(issue)}`);
}

const kinds: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'yes or no',
  object: 'a choice from the list',
};

function faultOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `${kinds[issue.expected] ?? 'something else'} belongs here`;
    case 'too_small':
      return `at least ${issue.minimum}${issue.origin === 'string' ? ' characters' : ''}`;
    case 'too_big':
      return `at most ${issue.maximum}${issue.origin === 'string' ? ' characters' : ''}`;
    case 'invalid_value':
      return `one of ${issue.values.map(String).join(', ')}`;
    default:
      return issue.message;
  }
}
