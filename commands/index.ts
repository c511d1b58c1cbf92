import type { Press } from '../src/reply/index.ts';
import { change, changeActs } from './change.ts';
import { chore } from './chore.ts';
import { claim, claimActs } from './claim.ts';
import { clock } from './clock.ts';
import type { ActHandlers, Answer, Command, Ctx, Pressed } from './command.ts';
import { cost, costActs } from './cost.ts';
import { count, countActs } from './count.ts';
import { dispatch } from './dispatch.ts';
import { dispatchActs } from './dispatchActs.ts';
import { exportCommand } from './export.ts';
import { forecast, forecastActs } from './forecast.ts';
import { goods } from './goods.ts';
import { help, helpActs } from './help.ts';
import { hold, holdActs } from './hold.ts';
import { formAgain } from './keptForms.ts';
import { loss } from './loss.ts';
import { mix } from './mix.ts';
import { money, moneyActs } from './money.ts';
import { move } from './move.ts';
import { pack, packActs } from './pack.ts';
import { packParcelActs } from './packActs.ts';
import { passesActs } from './passes.ts';
import { reading, readingActs } from './reading.ts';
import { rota } from './rota.ts';
import { rotaActs } from './rotaTicks.ts';
import { roundActs } from './round.ts';
import { again, leaveIt, runPress } from './run.ts';
import { sale } from './sale.ts';
import { saleActs } from './saleActs.ts';
import { season } from './season.ts';
import { setup } from './setup.ts';
import { setupFormActs } from './setupForms.ts';
import { stock, stockActs } from './stock.ts';
import { topup } from './topup.ts';
import { trouble, troubleActs } from './trouble.ts';
import { tub, tubActs } from './tub.ts';
import { undo, undoActs } from './undo.ts';
import { waiting, waitingActs } from './waiting.ts';

/** Every slash command, in the order of the menu: used for registration and for dispatch. */
export const commands: readonly Command[] = [
  ...[help, reading, change, topup, mix, count, loss, trouble, move, hold, tub],
  ...[stock, forecast, sale, waiting, goods, dispatch, pack, claim, season],
  ...[cost, money, exportCommand],
  ...[rota, chore, undo, setup],
];

/** What a demonstration has besides. */
export const demoCommands: readonly Command[] = [...commands, clock];

/** What each control does; the compiler misses none. */
export const acts: ActHandlers = {
  ...changeActs,
  ...claimActs,
  ...costActs,
  ...countActs,
  ...dispatchActs,
  ...forecastActs,
  ...helpActs,
  ...holdActs,
  ...moneyActs,
  ...passesActs,
  ...packActs,
  ...packParcelActs,
  ...readingActs,
  ...rotaActs,
  ...roundActs,
  ...saleActs,
  ...setupFormActs,
  ...stockActs,
  ...troubleActs,
  ...tubActs,
  ...undoActs,
  ...waitingActs,
  again: (args, ctx) => again(args, ctx, commands),
  'leave-it': () => leaveIt(),
  'form-again': (args, ctx) => formAgain(args, ctx, (opener) => handle(opener, ctx)),
};

/** Runs the handler of a press. */
export const handle = (
  pressed: Press,
  ctx: Ctx,
  came: Pressed = { values: [], fields: {} },
): Answer | Promise<Answer> => runPress(acts, pressed, ctx, came);
