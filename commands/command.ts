import type { z } from 'zod';
import type { Desk } from '../src/desk/index.ts';
import type { By, Instant } from '../src/domain/index.ts';
import type { ActArgs, ActName, Card, Form } from '../src/reply/index.ts';

/** What a command gets beside its input. */
export interface Ctx {
  readonly desk: Desk;
  /** Who asks, with the key of this interaction. */
  readonly by: By;
  /** Whether the asker may change settings: Manage Server, or a partner marked as owner. */
  readonly owner: boolean;
  readonly now: Instant;
  /** Fetches an attached photo into the data folder; its file name, or why it could not be kept. */
  readonly keepPhoto: (photo: Attachment) => Promise<{ ok: true; value: string } | { ok: false; cause: string }>;
  /** The demonstration's clock; null in earnest. */
  readonly demoClock: DemoClock | null;
}

/** The demonstration's clock: it only goes forward, and everything due on the way happens. */
export interface DemoClock {
  advanceTo(to: Instant): Promise<{ readonly posts: number }>;
}

/** What a handler gives back. A card is a new message unless it stands in `settle`. */
export interface Answer {
  readonly card?: Card;
  /** Only the asker sees the card. */
  readonly private?: boolean;
  /** A form to fill in, instead of a card. Not possible in answer to a form. */
  readonly form?: Form;
  /** What the message with the pressed control turns into. */
  readonly settle?: Card;
}

export interface Attachment {
  readonly id: string;
  readonly name: string;
  readonly url: string;
  readonly sizeBytes: number;
  readonly contentType: string | null;
}

/** A member of the guild as an option of the user type brings it. */
export interface Member {
  readonly userId: string;
  readonly name: string;
  readonly bot: boolean;
}

/** Option values by option name, as the service typed them. */
export type RawInput = Readonly<Record<string, unknown>>;

export const completions = [
  'tub',
  'line',
  'sale',
  'chore',
  'outlet',
  'goods',
  'entry',
  'rack',
  'area',
  'buyer',
  'window',
] as const;
export type Completion = (typeof completions)[number];

export interface OptionSpec {
  readonly name: string;
  readonly description: string;
  readonly type: 'text' | 'number' | 'integer' | 'boolean' | 'member' | 'attachment' | 'channel';
  readonly required?: boolean;
  readonly choices?: readonly string[];
  readonly complete?: Completion;
}

/** One thing to type after the slash: a whole command, or a subcommand of one. */
export interface Leaf {
  /** As typed after the slash: `stock`, `reading log`. */
  readonly path: string;
  readonly description: string;
  readonly options: readonly OptionSpec[];
  /** Only the owner may. */
  readonly ownerOnly?: boolean;
  /** May take over a second: acknowledged first, privately if so marked. */
  readonly slow?: 'channel' | 'asker';
  /** Parses the options and answers. */
  readonly handle: (raw: RawInput, ctx: Ctx) => Answer | Promise<Answer>;
}

/** A slash command: one leaf of its own path, or several subcommands under its name. */
export interface Command {
  readonly name: string;
  readonly description: string;
  readonly leaves: readonly Leaf[];
}

interface LeafSpec<S extends z.ZodType> extends Omit<Leaf, 'handle'> {
  readonly input: S;
  readonly run: (input: z.infer<S>, ctx: Ctx) => Answer | Promise<Answer>;
}

/** Ties a handler to its zod input, so that what it gets is what was checked. */
export function leaf<S extends z.ZodType>({ input, run, ...spec }: LeafSpec<S>): Leaf {
  return { ...spec, handle: (raw, ctx) => run(input.parse(raw), ctx) };
}

/** What came with a press: the choices of a select, the texts of a form. */
export interface Pressed {
  readonly values: readonly string[];
  readonly fields: Readonly<Record<string, string>>;
}

export type ActHandler<N extends ActName> = (args: ActArgs<N>, ctx: Ctx, pressed: Pressed) => Answer | Promise<Answer>;

/** Handlers by act; commands/index.ts brings them together and the compiler misses none. */
export type ActHandlers = { readonly [N in ActName]: ActHandler<N> };
