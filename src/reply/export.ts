import type { ExportTable, LocalDay } from '../domain/index.ts';
import type { Card } from './card.ts';
import { csvTexts } from './exportCsv.ts';
import { counted, dateWords, someWords, type Voice } from './voice.ts';

/** A table as files, and what the card says of it. */
export interface ExportFiles {
  readonly table: string;
  readonly rows: number;
  readonly isPersonal: boolean;
  readonly files: readonly { readonly name: string; readonly text: string }[];
}

/** Columns that point to a person. */
const personal = ['buyer', 'area', 'tracking', 'photo', 'note'];

/** "sales-2026-11-25.csv", and of a table that one file does not hold "sales-2026-11-25-2.csv" and so on. */
export const exportFiles = (voice: Voice, table: ExportTable): ExportFiles => ({
  table: table.name,
  rows: table.rows.length,
  isPersonal: table.columns.some(({ name }) => personal.includes(name)),
  files: csvTexts(voice, table).map((text, index) => ({
    name: `${table.name}-${voice.today}${index === 0 ? '' : `-${index + 1}`}.csv`,
    text,
  })),
});

interface Days {
  readonly from?: LocalDay | undefined;
  readonly to?: LocalDay | undefined;
}

/** Tables as files for the asker alone; of several, empty ones are left out. */
export function exportCard(voice: Voice, tables: readonly ExportFiles[], days: Days): Card {
  const [only, ...others] = tables;
  const isOne = only !== undefined && others.length === 0;
  const full = isOne ? tables : tables.filter(({ rows }) => rows > 0);
  const empty = tables.filter((each) => !full.includes(each)).map(({ table }) => table);
  return {
    title: isOne ? `Export: ${only.table}, ${counted(only.rows, 'row')}` : `Export: ${counted(full.length, 'table')}`,
    why: [
      ...spanLines(voice, days),
      ...(empty.length === 0 ? [] : [`Empty, so left out: ${someWords(empty, 4)}`]),
      `Amounts in ${voice.currency}, times of ${voice.zone}`,
      "A text that a sheet could run as a formula has a ' before it",
      ...(full.some(({ isPersonal }) => isPersonal) ? ["Buyers' data are in it: only you see this message"] : []),
    ],
    ...(!isOne && { table: rowTable(full) }),
    next: full.length === 0 ? 'Ask for other days' : 'Keep the files where nobody else looks',
    files: full.flatMap(({ files }) => files),
  };
}

/** The tables with their rows, two beside each other. */
function rowTable(tables: readonly ExportFiles[]): string[] {
  const cells = tables.map(({ table, rows }) => `${table.slice(0, 11).padEnd(11)}${String(rows).padStart(7)}`);
  const half = Math.ceil(cells.length / 2);
  return cells.slice(0, half).map((cell, index) => `${cell}  ${cells[half + index] ?? ''}`.trimEnd());
}

function spanLines(voice: Voice, { from, to }: Days): string[] {
  if (from === undefined && to === undefined) return [];
  const words = [
    ...(from === undefined ? [] : [`from ${dateWords(voice, from)}`]),
    ...(to === undefined ? [] : [`to ${dateWords(voice, to)}`]),
  ].join(' ');
  return [`${words.charAt(0).toUpperCase()}${words.slice(1)}`];
}
