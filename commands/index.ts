import { change, changeActs } from './change.ts';
import type { ActHandlers, Command } from './command.ts';
import { count, countActs } from './count.ts';
import { help, helpActs } from './help.ts';
import { hold, holdActs } from './hold.ts';
import { loss } from './loss.ts';
import { move } from './move.ts';
import { reading, readingActs } from './reading.ts';
import { again, formAgain, leaveIt } from './run.ts';
import { setup } from './setup.ts';
import { stock, stockActs } from './stock.ts';
import { topup } from './topup.ts';
import { tub, tubActs } from './tub.ts';
import { undo, undoActs } from './undo.ts';

/** Every slash command, in the order of the menu: used for registration and for dispatch. */
export const commands: readonly Command[] = [
  help,
  reading,
  change,
  topup,
  count,
  loss,
  move,
  hold,
  stock,
  tub,
  undo,
  setup,
];

/** What each control does; the compiler misses none. */
export const acts: ActHandlers = {
  ...changeActs,
  ...countActs,
  ...helpActs,
  ...holdActs,
  ...readingActs,
  ...stockActs,
  ...tubActs,
  ...undoActs,
  again: (args, ctx) => again(args, ctx, commands),
  'leave-it': () => leaveIt(),
  'form-again': (args, ctx) => formAgain(args, ctx, (opener) => handle(opener, ctx)),
};

import type { Press } from '../src/reply/index.ts';
import type { Answer, Ctx, Pressed } from './command.ts';

/** Runs the handler of a press. */
export function handle<P extends Press>(
  pressed: P,
  ctx: Ctx,
  came: Pressed = { values: [], fields: {} },
): Answer | Promise<Answer> {
  const handler = acts[pressed.act] as (args: P['args'], ctx: Ctx, came: Pressed) => Answer | Promise<Answer>;
  return handler(pressed.args, ctx, came);
}
