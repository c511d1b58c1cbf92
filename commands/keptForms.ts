import { z } from 'zod';
import { keepDraft, keptDraft } from '../src/desk/index.ts';
import { type Button, button, customIdOf, type Press, press, pressOf } from '../src/reply/index.ts';
import type { Answer, Ctx, Pressed } from './command.ts';

/** A form that was sent and could not be taken: the press that opens it again, and what was typed. */
const sentForm = z.object({ fields: z.record(z.string(), z.string()) });

/**
 * Keeps what was typed into a form that could not be taken.
 * @param opener the press that opens the empty form
 * @returns a button that opens the form again as it was sent
 */
export function keepForm(ctx: Ctx, opener: Press, fields: Pressed['fields']): Button {
  const draft = keepDraft(ctx.desk, { path: customIdOf(opener), raw: { fields }, patches: [] });
  return button('Correct it', press('form-again', { draft }), 'main');
}

/** A press of "Correct it": the form with the texts that were sent. `open` opens the empty one. */
export async function formAgain(
  args: { readonly draft: number },
  ctx: Ctx,
  open: (opener: Press) => Answer | Promise<Answer>,
): Promise<Answer> {
  const draft = keptDraft(ctx.desk, args.draft);
  const opener = draft === undefined ? undefined : pressOf(draft.path);
  if (draft === undefined || opener === undefined) return formGone;
  const sent = sentForm.safeParse(draft.raw);
  if (!sent.success) return formGone;
  const { fields } = sent.data;
  const opened = await open(opener);
  if (opened.form === undefined) return opened;
  const filled = opened.form.fields.map((field) => {
    const value = fields[field.id];
    return value === undefined ? field : { ...field, value };
  });
  return { ...opened, form: { ...opened.form, fields: filled } };
}

const formGone: Answer = {
  private: true,
  card: { title: 'What was typed is gone', why: ['It is kept for a week'], next: 'Start with the command again' },
};
