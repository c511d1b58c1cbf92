import type { Answer, Ctx, Leaf, RawInput } from '../../commands/command.ts';
import { runLeaf } from '../../commands/run.ts';
import type { TestDesk } from './desk.ts';

/** What a handler gets when `name` types or presses at this desk: photos are kept under their own name. */
export const ctxOf = ({ desk, by }: Pick<TestDesk, 'desk' | 'by'>, name = 'wren', owner = true): Ctx => ({
  desk,
  by: by(name),
  owner,
  now: desk.now(),
  keepPhoto: (photo) => Promise.resolve({ ok: true, value: photo.name }),
  demoClock: null,
});

/** Types a command. */
export const typed = (test: Pick<TestDesk, 'desk' | 'by'>, leaf: Leaf, raw: RawInput, name?: string): Promise<Answer> =>
  runLeaf(leaf, raw, ctxOf(test, name));
