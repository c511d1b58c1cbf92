import type { ExportTable, LocalDay } from '../domain/index.ts';
import type { Card } from './card.ts';
import { csvText } from './exportCsv.ts';
import { counted, dateWords, type Voice } from './voice.ts';

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
      ...(tables.length === 1 ? [] : [full.map(({ name, rows }) => `${name} ${rows.length}`).join(' · ')]),
      ...(empty.length === 0 ? [] : [`Empty, so left out: ${empty.map(({ name }) => name).join(', ')}`]),
      `Amounts in ${voice.currency}, times of ${voice.zone}`,
      "A text that a sheet could run as a formula has a ' before it",
      ...(isPersonal ? ["Buyers' data are in it: only you see this message"] : []),
    ],
    next: full.length === 0 ? 'Ask for other days' : 'Keep the files where nobody else looks',
    files: full.map((table) => ({ name: `${table.name}-${voice.today}.csv`, text: csvText(voice, table) })),
  };
}

function spanLines(voice: Voice, { from, to }: Exported['input']): string[] {
  if (from === undefined && to === undefined) return [];
  const words = [
    ...(from === undefined ? [] : [`from ${dateWords(voice, from)}`]),
    ...(to === undefined ? [] : [`to ${dateWords(voice, to)}`]),
  ].join(' ');
  return [`${words.charAt(0).toUpperCase()}${words.slice(1)}`];
}
