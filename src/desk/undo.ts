import { type By, type Entry, fail, ok, type Refusal, type Result } from '../domain/index.ts';
import type { Desk } from './desk.ts';

/** How far back an entry may be chosen for undoing. */
const reach = 20;

/** The last entries that could be undone, newest first. */
export const undoable = (desk: Desk): Entry[] => desk.store.entries.latest(reach);

/** The entry that `/undo` would void: the asker's last, or the one chosen. Nothing is voided yet. */
export function toUndo(desk: Desk, by: By, owner: boolean, entryId: number | undefined): Result<Entry, Refusal> {
  const entry = entryId === undefined ? desk.store.entries.latestOf(by.userId) : desk.store.entries.get(entryId);
  if (entry === undefined) {
    return fail(
      entryId === undefined
        ? { kind: 'nothing-to-undo' }
        : { kind: 'unknown', noun: 'entry', typed: String(entryId), near: [] },
    );
  }
  if (entry.voided !== null) {
    return fail({ kind: 'voided-already', summary: entry.summary, at: entry.voided.at, by: entry.voided.by });
  }
  if (entry.kind === 'forget') return fail({ kind: 'cannot-undo', summary: entry.summary });
  if (entry.who.userId !== by.userId && !owner)
    return fail({ kind: 'not-yours', summary: entry.summary, by: entry.who.name });
  const later = desk.store.rests.on(entry.id);
  return later.length > 0 ? fail({ kind: 'others-rest-on-it', summary: entry.summary, later }) : ok(entry);
}

/** Voids an entry after the asker confirmed; its facts stay but no longer count. */
export function undo(desk: Desk, by: By, owner: boolean, entryId: number): Result<Entry, Refusal> {
  return desk.store.write(() => {
    const entry = toUndo(desk, by, owner, entryId);
    if (entry.ok) desk.store.entries.void(entry.value.id, by, desk.now());
    return entry;
  });
}

/** More entries than the chores of a rack make. */
const mostTogether = 200;

/** Voids what the asker logged with one press, the entries from one number to another, newest first; what later entries rest on stays. */
export function undoTogether(
  desk: Desk,
  by: By,
  span: { readonly from: number; readonly to: number },
): { readonly undone: readonly Entry[]; readonly left: readonly Entry[] } {
  return desk.store.write(() => {
    const undone: Entry[] = [];
    const left: Entry[] = [];
    const now = desk.now();
    const from = Math.max(span.from, span.to - mostTogether);
    for (let id = span.to; id >= from; id -= 1) {
      const entry = desk.store.entries.get(id);
      if (entry === undefined || entry.voided !== null || entry.who.userId !== by.userId) continue;
      const isFree = toUndo(desk, by, false, id).ok;
      if (isFree) desk.store.entries.void(id, by, now);
      (isFree ? undone : left).push(entry);
    }
    return { undone, left };
  });
}
