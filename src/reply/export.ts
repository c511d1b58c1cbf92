import type { ExportTable, LocalDay } from '../domain/index.ts';
import type { Card } from './card.ts';
import { csvText } from './exportCsv.ts';
import { counted, dateWords, someWords, type Voice } from './voice.ts';

interface Exported {
  readonly tables: readonly ExportTable[];
  readonly input: { readonly from?: LocalDay | undefined; readonly to?: LocalDay | undefined };
}

/** Columns that point to a person. */
const personal = ['buyer', 'area', 'tracking', 'photo', 'note'];

/** Tables as files for the asker alone; of several, empty ones are left out. */
export function exportCard(voice: Voice, { tables, input }: Exported): Card {
  const [first] = tables;
  const full = tables.length === 1 ? tables : tables.filter(({ rows }) => rows.length > 0);
  const empty = tables.filter((table) => !full.includes(table));
  const isPersonal = full.some(({ columns }) => columns.some(({ name }) => personal.includes(name)));
  return {
    title:
      tables.length === 1
        ? `Export: ${first?.name ?? ''}, ${counted(first?.rows.length ?? 0, 'row')}`
        : `Export: ${counted(full.length, 'table')}`,
    why: [
      ...spanLines(voice, input),
      ...(empty.length === 0
        ? []
        : [
            `Empty, so left out: ${someWords(
              empty.map(({ name }) => name),
              4,
            )}`,
          ]),
      `Amounts in ${voice.currency}, times of ${voice.zone}`,
      "A text that a sheet could run as a formula has a ' before it",
      ...(isPersonal ? ["Buyers' data are in it: only you see this message"] : []),
    ],
    ...(tables.length > 1 && { table: rowTable(full) }),
    next: full.length === 0 ? 'Ask for other days' : 'Keep the files where nobody else looks',
    files: full.map((table) => ({ name: `${table.name}-${voice.today}.csv`, text: csvText(voice, table) })),
  };
}

/** The tables with their rows, two beside each other. */
function rowTable(tables: readonly ExportTable[]): string[] {
  const cells = tables.map(({ name, rows }) => `${name.slice(0, 11).padEnd(11)}${String(rows.length).padStart(7)}`);
  const half = Math.ceil(cells.length / 2);
  return cells.slice(0, half).map((cell, index) => `${cell}  ${cells[half + index] ?? ''}`.trimEnd());
}

function spanLines(voice: Voice, { from, to }: Exported['input']): string[] {
  if (from === undefined && to === undefined) return [];
  const words = [
    ...(from === undefined ? [] : [`from ${dateWords(voice, from)}`]),
    ...(to === undefined ? [] : [`to ${dateWords(voice, to)}`]),
  ].join(' ');
  return [`${words.charAt(0).toUpperCase()}${words.slice(1)}`];
}
