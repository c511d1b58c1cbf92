/** What the chat service takes, in characters and pieces. Source: the service's developer documentation, "message resource" and "component reference". */
export const limits = {
  content: 2000,
  rows: 5,
  /** Files of one message, and what they may hold together; the service takes 10 MiB a file, and the request needs room for the rest. */
  files: 10,
  fileBytes: 8_000_000,
  buttonsPerRow: 5,
  buttonLabel: 80,
  selectOptions: 25,
  selectText: 100,
  selectPlaceholder: 150,
  formTitle: 45,
  formFields: 5,
  fieldLabel: 45,
  fieldHint: 100,
  fieldText: 4000,
  choices: 25,
  choiceText: 100,
} as const;

/** `text` in at most `most` characters (UTF-16 units), an ellipsis in place of what is left out; no pair and no escape is cut in two. */
export function clipped(text: string, most: number): string {
  if (text.length <= most) return text;
  let kept = text.slice(0, most - 1);
  if (/[\ud800-\udbff]$/.test(kept)) kept = kept.slice(0, -1);
  const backslashes = /\\*$/.exec(kept)?.[0].length ?? 0;
  return `${backslashes % 2 === 1 ? kept.slice(0, -1) : kept}…`;
}
