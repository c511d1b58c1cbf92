/** Characters that turn a message's text into bold, code, a link, a spoiler or a mention wherever they stand. */
const anywhere = /[\\*_~`|<@[\]]/g;

/** Characters that make a heading, a quotation or a list where a line begins with them. */
const atStart = /^(?:[#>+-]|\d+[.)](?=\s))/;

/** Breaks, control characters and the invisible marks that turn the direction of writing round. */
const unseen = /[\p{Cc}\p{Zl}\p{Zp}\u200e\u200f\u202a-\u202e\u2066-\u2069]+/gu;

/**
 * A line of a card as message text: on one line, and nothing in it formats, links or mentions, as it may hold what people typed.
 * Not for labels, forms, files and tables: they show text as it is.
 */
export function escaped(plain: string): string {
  const line = plain.replace(unseen, ' ').replace(anywhere, '\\$&');
  return line.replace(atStart, (start) => `${start.slice(0, -1)}\\${start.slice(-1)}`);
}
