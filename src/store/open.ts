import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { animalStore } from './animals.ts';
import { backupStore } from './backups.ts';
import { choreStore } from './chores.ts';
import { choreWorkStore } from './choreWork.ts';
import { colonyStore } from './colonies.ts';
import { costStore } from './costs.ts';
import { draftStore } from './drafts.ts';
import { entryStore } from './entries.ts';
import { exportStore } from './exports.ts';
import { freshnessOf } from './freshness.ts';
import { goodsStore } from './goods.ts';
import { jobRunStore } from './jobRuns.ts';
import { migrate } from './migrate.ts';
import { outletStore } from './outlets.ts';
import { parcelCheckStore } from './parcelChecks.ts';
import { parcelStore } from './parcels.ts';
import { photoStore } from './photos.ts';
import { promiseStore } from './promises.ts';
import { restStore } from './rests.ts';
import { rotaStore } from './rota.ts';
import { saleForgetStore } from './saleForget.ts';
import { saleMoneyStore } from './saleMoney.ts';
import { saleStore } from './sales.ts';
import { seasonStore } from './seasons.ts';
import { settingStore } from './settings.ts';
import { troubleStore } from './troubles.ts';
import { tubStore } from './tubs.ts';
import { waitingStore } from './waiting.ts';
import { waterStore } from './water.ts';
import { weatherStore } from './weather.ts';

/** Name of the database in the data folder. */
export const databaseFile = 'berried.db';

/** Opens the database in the data folder, makes it where there is none, and brings its schema up to date. */
export function openStore(folder: string) {
  mkdirSync(folder, { recursive: true });
  const file = join(folder, databaseFile);
  const db = new Database(file);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.pragma('busy_timeout = 5000');
  try {
    migrate(db);
  } catch (cause) {
    db.close();
    throw cause;
  }
  const fresh = freshnessOf(db);
  const drafts = draftStore(join(folder, 'drafts.db'));
  const colonies = colonyStore(join(folder, 'colonies.db'));

  return {
    entries: entryStore(db, fresh),
    settings: settingStore(db),
    troubles: troubleStore(db),
    tubs: tubStore(db),
    water: waterStore(db, fresh),
    animals: animalStore(db, fresh),
    backups: backupStore(file, join(folder, 'backups')),
    chores: choreStore(db),
    choreWork: choreWorkStore(db),
    costs: costStore(db),
    jobRuns: jobRunStore(db),
    rota: rotaStore(db),
    promises: promiseStore(db, fresh),
    exports: exportStore(db),
    goods: goodsStore(db),
    outlets: outletStore(db),
    sales: saleStore(db, fresh),
    saleForget: saleForgetStore(db),
    saleMoney: saleMoneyStore(db),
    parcels: parcelStore(db, fresh),
    parcelChecks: parcelCheckStore(db),
    photos: photoStore(folder),
    seasons: seasonStore(db),
    waiting: waitingStore(db),
    weather: weatherStore(db),
    rests: restStore(db),
    drafts,
    colonies,
    /**
     * Runs `work` in one immediate transaction. Only a throw rolls back: decide before you open it, or read and decide inside and
     * write only when the decision stands.
     */
    write: <T>(work: () => T): T => {
      try {
        return db.transaction(work).immediate();
      } catch (cause) {
        fresh.noteRollback();
        throw cause;
      }
    },
    /** Another text whenever a tub's facts of that concern may have changed: what was concluded under the former is out of date. */
    freshness: fresh.of,
    /** The same of all temperatures together. */
    temperatureFreshness: fresh.ofTemperatures,
    close: (): void => {
      drafts.close();
      colonies.close();
      db.close();
    },
  };
}

export type Store = ReturnType<typeof openStore>;
