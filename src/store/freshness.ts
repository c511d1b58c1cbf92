import type { Database } from 'better-sqlite3';

/** What is concluded from a tub's facts: from its water, or from what happened to its animals. */
export type Concern = 'water' | 'animals';

const tubsTouched: Readonly<Record<Concern, readonly string[]>> = {
  water: ['reading', 'water_change', 'top_up'].map((table) => `SELECT tub_id FROM ${table} WHERE entry_id = @id`),
  animals: [
    ...['stock_count', 'loss'].map((table) => `SELECT tub_id FROM ${table} WHERE entry_id = @id`),
    'SELECT from_tub_id FROM animal_move WHERE entry_id = @id',
    'SELECT to_tub_id FROM animal_move WHERE entry_id = @id',
    'SELECT c.tub_id FROM parcel_catch c JOIN parcel p ON p.id = c.parcel_id WHERE p.entry_id = @id',
  ],
};

/**
 * How often this process has changed the facts of each tub, so that what was concluded from them is reckoned anew only then. It begins at 0 with the
 * process, as the conclusions that are kept in memory do.
 */
export function freshnessOf(db: Database) {
  const counts: Readonly<Record<Concern, Map<number, number>>> = { water: new Map(), animals: new Map() };
  // Of this connection, voids and all; what is rolled back stays counted.
  const written = db.prepare<[], { number: number }>('SELECT total_changes() AS number');
  let temperatures = 0;
  let rolledBack = 0;
  const touched = (concern: Concern) =>
    db.prepare<{ id: number }, { tub_id: number }>(tubsTouched[concern].join(' UNION '));
  const touchedBy = { water: touched('water'), animals: touched('animals') };
  const readTemp = db.prepare<[number]>('SELECT 1 FROM reading WHERE entry_id = ? AND temp_c IS NOT NULL');
  const note = (concern: Concern, tubId: number): void => {
    counts[concern].set(tubId, (counts[concern].get(tubId) ?? 0) + 1);
  };

  return {
    /** A fact of a tub is written. */
    note,
    /** A temperature is written. */
    noteTemperature: (): void => {
      temperatures += 1;
    },
    /** An entry is voided, with all facts that hang on it. */
    noteVoid: (entryId: number): void => {
      for (const concern of ['water', 'animals'] as const) {
        for (const { tub_id } of touchedBy[concern].all({ id: entryId })) note(concern, tub_id);
      }
      if (readTemp.get(entryId) !== undefined) temperatures += 1;
    },
    /** What was written is taken back: nothing concluded meanwhile holds. */
    noteRollback: (): void => {
      rolledBack += 1;
    },
    /** Another text whenever a tub's facts of that concern may have changed. */
    of: (concern: Concern, tubId: number): string => `${counts[concern].get(tubId) ?? 0}.${rolledBack}`,
    /** Another text whenever anything at all may have changed. */
    ofAll: (): string => `${written.get()?.number ?? 0}.${rolledBack}`,
    /** Another text whenever any temperature that was read may have changed. */
    ofTemperatures: (): string => `${temperatures}.${rolledBack}`,
  };
}

export type Freshness = ReturnType<typeof freshnessOf>;
