import type { Instant } from '../day.ts';
import type { Tub } from '../tub.ts';
import type { Chore, ChoreAct } from './chore.ts';
import { localDays } from './localDays.ts';
import type { DoneWork } from './split/owed.ts';
import { placeKey } from './target.ts';

/** A tick of a chore (own), or a logged act that ticks chores of its kind, and who did it. */
export interface Doing {
  readonly act: ChoreAct;
  /** Null: of an act. */
  readonly choreId: number | null;
  readonly tubId: number | null;
  readonly rack: string | null;
  readonly at: Instant;
  readonly userId: string;
}

/** The chore minutes in what was done, by the minutes that each chore is set to: once for a chore, place and day, for whoever came first. */
export function workDone(
  doings: readonly Doing[],
  chores: readonly Chore[],
  tubs: readonly Pick<Tub, 'id' | 'rack'>[],
  zone: string,
): DoneWork[] {
  const racks = new Map(tubs.map(({ id, rack }) => [id, rack]));
  const byId = new Map(chores.map((chore) => [chore.id, chore]));
  const byAct = new Map(chores.filter(({ off }) => !off).map((chore) => [chore.act, chore]));
  const dayIn = localDays(zone);
  const counted = new Set<string>();
  return doings.flatMap(({ act, choreId, tubId, rack, at, userId }): DoneWork[] => {
    const chore = choreId === null ? byAct.get(act) : byId.get(choreId);
    if (chore === undefined) return [];
    const inRack = rack ?? (tubId === null ? null : (racks.get(tubId) ?? null));
    const on = dayIn(at);
    const place = {
      choreId: chore.id,
      tubId: chore.scope === 'tub' ? tubId : null,
      rack: chore.scope === 'rack' ? inRack : null,
    };
    const key = `${placeKey(place)} ${on}`;
    if (counted.has(key)) return [];
    counted.add(key);
    return [{ on, userId, minutes: chore.minutes, rack: chore.scope === 'business' ? null : inRack }];
  });
}
