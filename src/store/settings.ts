import type { Database } from 'better-sqlite3';
import type { Instant, LocalDay, Partner } from '../domain/index.ts';

interface PartnerRow {
  user_id: string;
  name: string;
  share_percent: number | null;
  never: string;
  away_from: LocalDay | null;
  away_to: LocalDay | null;
  owner: number;
}

/** The settings of the business by name, its people, and when it all began. */
export function settingStore(db: Database) {
  const insert = db.prepare<[number, string, string]>('INSERT INTO setting (entry_id, name, value) VALUES (?, ?, ?)');
  const current = db.prepare<[], { name: string; value: string }>(`
    SELECT s.name, s.value FROM setting s JOIN live_entry e ON e.id = s.entry_id
    WHERE s.id = (SELECT max(o.id) FROM setting o JOIN live_entry oe ON oe.id = o.entry_id WHERE o.name = s.name)`);
  const insertPartner = db.prepare(`
    INSERT INTO partner_version (entry_id, user_id, name, share_percent, never, away_from, away_to, owner, removed)
    VALUES (@entryId, @userId, @name, @sharePercent, @never, @awayFrom, @awayTo, @owner, @removed)`);
  const partners = db.prepare<[], PartnerRow>(`
    SELECT v.* FROM partner_version v
    WHERE v.removed = 0 AND v.id =
      (SELECT max(o.id) FROM partner_version o JOIN live_entry oe ON oe.id = o.entry_id WHERE o.user_id = v.user_id)
    ORDER BY (SELECT min(f.id) FROM partner_version f WHERE f.user_id = v.user_id)`);
  const start = db.prepare<[Instant]>('INSERT INTO started (id, at) VALUES (1, ?) ON CONFLICT DO NOTHING');
  const started = db.prepare<[], { at: Instant }>('SELECT at FROM started');

  return {
    /** What was set, by name; a name that was never set is missing. */
    all: (): Map<string, unknown> =>
      new Map(current.all().map(({ name, value }) => [name, JSON.parse(value) as unknown])),
    set: (entryId: number, name: string, value: unknown): void => {
      insert.run(entryId, name, JSON.stringify(value));
    },
    partners: (): Partner[] =>
      partners.all().map((row) => ({
        userId: row.user_id,
        name: row.name,
        sharePercent: row.share_percent,
        never: JSON.parse(row.never) as string[],
        awayFrom: row.away_from,
        awayTo: row.away_to,
        owner: row.owner === 1,
      })),
    setPartner: (entryId: number, partner: Partner, removed: boolean): void => {
      insertPartner.run({
        ...partner,
        entryId,
        never: JSON.stringify(partner.never),
        owner: Number(partner.owner),
        removed: Number(removed),
      });
    },
    /** Notes the first start, once; gives the noted one. */
    startedAt: (now: Instant): Instant => {
      start.run(now);
      return started.get()?.at ?? now;
    },
  };
}
