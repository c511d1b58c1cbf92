/** What a column of an export holds: money is whole minor units, a moment an instant in UTC, a day a local day. */
export type ColumnKind = 'text' | 'number' | 'money' | 'moment' | 'day';

/** A table to be handed out, cell by cell in the order of its columns; null: nothing known. */
export interface ExportTable {
  readonly name: string;
  readonly columns: readonly { readonly name: string; readonly is: ColumnKind }[];
  readonly rows: readonly (readonly (string | number | null)[])[];
}
