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

/** Most texts: a letter or digit first, then nothing that separates, quotes or could begin a formula after it. They need no second look. */
const plain = /^[A-Za-z0-9](?:[A-Za-z0-9 .:()%/#]*[A-Za-z0-9.:()%/#])?$/;

/** A field of a comma-separated file, quoted where it holds what separates fields or rows. Source: RFC 4180, section 2. */
const field = (text: string): string => (/[",;|\t\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** Zones are off by whole quarters of an hour: within one, local time runs with UTC. */
const quarterMinutes = 15;

/** Tells the local date and time of many instants, "2026-11-25 18:52"; each quarter of an hour is reckoned once. */
function clockOf(zone: string): (at: Instant) => string {
  const quarters = new Map<string, string>();
  return (at) => {
    const past = Number(at.slice(14, 16)) % quarterMinutes;
    const key = `${at.slice(0, 14)}${String(Number(at.slice(14, 16)) - past).padStart(2, '0')}`;
    const begins = quarters.get(key) ?? localWords(`${key}:00.000Z` as Instant, zone);
    quarters.set(key, begins);
    return `${begins.slice(0, 14)}${String(Number(begins.slice(14)) + past).padStart(2, '0')}`;
  };
}

const localWords = (at: Instant, zone: string): string => `${dayOf(at, zone)} ${timeOf(at, zone)}`;

interface Cells {
  readonly currency: string;
  readonly clock: (at: Instant) => string;
}

function cellText({ currency, clock }: Cells, is: ColumnKind, value: string | number | null): string {
  if (value === null) return '';
  switch (is) {
    case 'text':
      return plain.test(String(value)) ? String(value) : field(harmless(String(value)));
    case 'money':
      return decimalWords(currency, Number(value));
    case 'moment':
      return clock(String(value) as Instant);
    case 'number':
      return String(Number(value));
    case 'day':
      return String(value);
  }
}

/** Characters of a file: the chat service takes 10 MiB, and a character (UTF-16 unit) is at most three bytes. */
const mostCharacters = 3_000_000;

/**
 * A table as comma-separated text: a heading, rows that end in CR LF, money as decimals of the business's currency, moments as its local
 * date and time. More rows than a file holds go on in further ones, each with the heading. Source: RFC 4180.
 */
export function csvTexts(voice: Voice, { columns, rows }: ExportTable, most = mostCharacters): string[] {
  const cells: Cells = { currency: voice.currency, clock: clockOf(voice.zone) };
  const heading = lineOf(columns.map(({ name }) => field(name)));
  const texts: string[] = [];
  let lines = [heading];
  let length = heading.length;
  for (const row of rows) {
    const line = lineOf(columns.map(({ is }, index) => cellText(cells, is, row[index] ?? null)));
    if (length + line.length > most && lines.length > 1) {
      texts.push(lines.join(''));
      lines = [heading];
      length = heading.length;
    }
    lines.push(line);
    length += line.length;
  }
  return [...texts, lines.join('')];
}

const lineOf = (cells: readonly string[]): string => `${cells.join(',')}\r\n`;
