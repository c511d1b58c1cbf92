import type { Database } from 'better-sqlite3';
import type { Migration } from './migration.ts';
import { facts } from './migrations/0001-facts.ts';
import { saleItemPrice } from './migrations/0002-sale-item-price.ts';
import { choreGrounds } from './migrations/0003-chore-grounds.ts';
import { waitingChange } from './migrations/0004-waiting-change.ts';
import { troubleChores } from './migrations/0005-trouble-chores.ts';
import { parcelCheck } from './migrations/0006-parcel-check.ts';
import { longHistory } from './migrations/0007-long-history.ts';

/** All steps, oldest first. */
export const migrations: readonly Migration[] = [
  facts,
  saleItemPrice,
  choreGrounds,
  waitingChange,
  troubleChores,
  parcelCheck,
  longHistory,
];

/** The database was made by a newer version of the program. */
export class NewerDatabase extends Error {
  override readonly name = 'NewerDatabase';
}

/**
 * Brings the schema up to date, one transaction a step. The schema's version lives in `user_version`, so it moves with the tables.
 * Foreign keys are off meanwhile (SQLite ignores the switch inside a transaction) and checked before each commit.
 */
export function migrate(db: Database, steps: readonly Migration[] = migrations): void {
  const latest = steps.at(-1)?.version ?? 0;
  const found = Number(db.pragma('user_version', { simple: true }));
  if (found > latest) {
    throw new NewerDatabase(
      `This database was made by a newer version of Berried (schema ${found}; this program knows ${latest}). Start the newer program, or restore an older backup.`,
    );
  }
  for (const step of steps.filter(({ version }) => version > found)) {
    db.pragma('foreign_keys = OFF');
    db.transaction(() => {
      db.exec(step.sql);
      const broken = db.pragma('foreign_key_check') as unknown[];
      if (broken.length > 0)
        throw new Error(`migration ${step.version} (${step.name}) leaves ${broken.length} broken references`);
      db.pragma(`user_version = ${step.version}`);
    }).immediate();
  }
  db.pragma('foreign_keys = ON');
}
