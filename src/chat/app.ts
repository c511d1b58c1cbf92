import type { Answer, Command, Completion, Ctx, Leaf, Pressed, RawInput } from '../../commands/command.ts';
import type { Partner } from '../domain/index.ts';
import type { Press } from '../reply/index.ts';

/** What chat needs of the rest of the program; main puts it together. */
export interface App {
  readonly commands: readonly Command[];
  readonly runLeaf: (leaf: Leaf, raw: RawInput, ctx: Ctx) => Promise<Answer>;
  readonly press: (press: Press, ctx: Ctx, pressed: Pressed) => Promise<Answer>;
  /** Whether a press may take over a second, so that it is acknowledged first. */
  readonly isSlow: (press: Press) => boolean;
  readonly complete: (kind: Completion, typed: string, ctx: Ctx, others: RawInput) => readonly Choice[];
  readonly contextFor: (by: Ctx['by'], owner: boolean) => Ctx;
  readonly partners: () => readonly Partner[];
  /** The channel chosen in the settings of the business; null: the configured one. */
  readonly chosenChannel: () => string | null;
  /** What an interaction with this key has written already. */
  readonly loggedBy: (key: string) => { readonly summary: string } | undefined;
  /** Called after each interaction that was worked on: it may have written something that posts speak of. */
  readonly worked: () => void;
}

export interface Choice {
  readonly name: string;
  readonly value: string;
}

/** The part of the program's log that chat writes to. */
export interface ChatLog {
  info(facts: object, text: string): void;
  warn(facts: object, text: string): void;
  error(facts: object, text: string): void;
}
