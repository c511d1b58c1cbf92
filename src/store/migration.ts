/** One step of the schema. Never edited once released; the next step has the next version. */
export interface Migration {
  readonly version: number;
  readonly name: string;
  readonly sql: string;
}
