import { type ColumnKind, dayOf, type ExportTable, type Instant, timeOf } from '../domain/index.ts';
import { decimalWords } from './moneyWords.ts';
import type { Voice } from './voice.ts';

/** What a spreadsheet may take for the beginning of a formula, the wide forms of East Asian keyboards among them. */
const formulaSigns = '=+\\-@\\uff1d\\uff0b\\uff0d\\uff20';
/** What is passed over before it: blanks, and signs that nobody sees. */
const unseen = '[\\p{White_Space}\\p{Cc}\\p{Cf}]*';
const atStart = new RegExp(`^(?=${unseen}[${formulaSigns}])|^(?=[\\t\\r\\n\\0])`, 'u');
/** A sheet set to other separators or quotes may cut a text in two there, and the second half would begin a cell. */
const afterSeparator = new RegExp(`([,;|\\t\\r\\n"])(?=${unseen}[${formulaSigns}])`, 'gu');

/**
 * A text that no spreadsheet runs: an apostrophe stands before what could be a formula. Source of the signs: OWASP Application Security
 * Verification Standard 5.0, requirement 1.2.10; the wide forms and what follows a separator are ours.
 */
export const harmless = (text: string): string => text.replace(afterSeparator, "$1'").replace(atStart, "'");

/** A field of a comma-separated file, quoted where it holds what separates fields or rows. Source: RFC 4180, section 2. */
const field = (text: string): string => (/[",;|\t\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

function cellText(voice: Voice, is: ColumnKind, value: string | number | null): string {
  if (value === null) return '';
  switch (is) {
    case 'text':
      return field(harmless(String(value)));
    case 'money':
      return decimalWords(voice.currency, Number(value));
    case 'moment': {
      const at = String(value) as Instant;
      return `${dayOf(at, voice.zone)} ${timeOf(at, voice.zone)}`;
    }
    case 'number':
      return String(Number(value));
    case 'day':
      return String(value);
  }
}

/**
 * A table as comma-separated text: a heading, rows that end in CR LF, money as decimals of the business's currency, moments as its local
 * date and time. Source: RFC 4180.
 */
export function csvText(voice: Voice, { columns, rows }: ExportTable): string {
  const lines = [
    columns.map(({ name }) => field(name)),
    ...rows.map((row) => columns.map(({ is }, index) => cellText(voice, is, row[index] ?? null))),
  ];
  return lines.map((cells) => `${cells.join(',')}\r\n`).join('');
}
