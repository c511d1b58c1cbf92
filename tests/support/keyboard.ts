import type { Answer, Ctx, Leaf, Pressed, RawInput } from '../../commands/command.ts';
import { commands, handle } from '../../commands/index.ts';
import { runLeaf } from '../../commands/run.ts';
import { stock } from '../../src/desk/index.ts';
import type { LineStock, TubStock } from '../../src/domain/index.ts';
import { customIdOf, type Press, pressOf } from '../../src/reply/index.ts';
import { buttonsOf, labelsOf } from './answers.ts';
import { type DeskOptions, deskAt } from './desk.ts';
import { rowCounts } from './rowCounts.ts';
import { taken } from './sellingDesk.ts';
import { ctxOf } from './typing.ts';

/** Who types or presses; settings and other people's entries need the owner. */
interface Hand {
  readonly name?: string;
  readonly owner?: boolean;
  /** Key of the interaction; a fresh one if not given. */
  readonly key?: string;
}

function leafAt(path: string): Leaf {
  const found = commands.flatMap(({ leaves }) => leaves).find((leaf) => leaf.path === path);
  if (found === undefined) throw new Error(`no command ${path}`);
  return found;
}

/** Two partners at a test desk who type commands and press what stands under the answers, as the chat would bring it. */
export function keyboardAt(instant: string, options: DeskOptions = {}) {
  const bench = deskAt(instant, options);
  const handOf = ({ name, owner, key }: Hand): Ctx => {
    const ctx = ctxOf(bench, name, owner);
    return key === undefined ? ctx : { ...ctx, by: { ...ctx.by, key } };
  };
  const type = async (path: string, raw: RawInput = {}, hand: Hand = {}): Promise<Answer> =>
    runLeaf(leafAt(path), raw, handOf(hand));
  const press = async (pressed: Press, came: Partial<Pressed> = {}, hand: Hand = {}): Promise<Answer> => {
    // Through the custom id and back, as the service carries it.
    const carried = pressOf(customIdOf(pressed));
    if (carried === undefined) throw new Error(`not readable: ${customIdOf(pressed)}`);
    return handle(carried, handOf(hand), { values: [], fields: {}, ...came });
  };

  const stocks = (): readonly LineStock[] => taken(stock(bench.desk));

  return {
    ...bench,
    /** What is free to promise of all lines. */
    free: (): number => stocks().reduce((sum, { free }) => sum + free, 0),
    /** What is believed of a tub. */
    tubStock: (name: string): TubStock => {
      const found = stocks()
        .flatMap(({ tubs }) => tubs)
        .find(({ tub }) => tub.name === name);
      if (found === undefined) throw new Error(`no tub ${name}`);
      return found;
    },
    /** Types a command. */
    type,
    /** Presses a control by its act, with what a select or a form brings. */
    press,
    /** Presses the button with this label under an answer. */
    tap: async (answer: Answer, label: string, hand: Hand = {}): Promise<Answer> => {
      const found = buttonsOf(answer).find((button) => button.label === label);
      if (found === undefined) throw new Error(`no button "${label}" but ${labelsOf(answer).join(', ')}`);
      return press(found.press, {}, hand);
    },
    /** Rows of every table: equal before and after where nothing was written. */
    rows: () => rowCounts(bench.folder),
    /** The people, a line and tubs with it, so that a test begins where it matters. */
    begin: async (names = 'A1-A6', line = 'orange', litres = 25): Promise<void> => {
      await type('setup partner', { partner: { userId: 'user-wren', name: 'wren', bot: false } });
      await type('setup line', { line, price: 2.5 });
      await type('tub add', { name: names, line, litres });
    },
  };
}

export type Keyboard = ReturnType<typeof keyboardAt>;
