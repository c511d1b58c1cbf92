import { readFileSync } from 'node:fs';

/** A published table beside this file: its remarks (the source), its column names, and its rows by column. */
export interface PublishedTable {
  readonly remarks: readonly string[];
  readonly columns: readonly string[];
  readonly rows: readonly Readonly<Record<string, string>>[];
}

/** Reads `name`: lines with # are remarks, the first other line names the columns. */
export function publishedTable(name: string): PublishedTable {
  const lines = readFileSync(new URL(name, import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line !== '');
  const remarks = lines.filter((line) => line.startsWith('#'));
  const [header = '', ...rows] = lines.filter((line) => !line.startsWith('#'));
  const columns = header.split(',');
  return {
    remarks,
    columns,
    rows: rows.map((row) => {
      const cells = row.split(',');
      if (cells.length !== columns.length) throw new Error(`${name}: ${cells.length} cells in "${row}"`);
      return Object.fromEntries(columns.map((column, index) => [column, cells[index] ?? '']));
    }),
  };
}

/** The number in a cell; an empty or wordy cell is an error. */
export function numberIn(row: Readonly<Record<string, string>>, column: string): number {
  const value = Number(row[column] === '' ? Number.NaN : row[column]);
  if (!Number.isFinite(value)) throw new Error(`no number under ${column}`);
  return value;
}
