import type { LocalDay } from '../day.ts';
import type { Chore, ChoreAct, ChorePlace } from '../rota/chore.ts';
import { placeKey } from '../rota/target.ts';

/** What was done in a place on a day: a tick of a chore, or an act that ticks chores of its kind. */
export interface WorkDone {
  readonly ticks: readonly (ChorePlace & { readonly day: LocalDay })[];
  readonly acts: readonly {
    readonly act: Exclude<ChoreAct, 'own'>;
    readonly tubId: number;
    readonly rack: string;
    readonly day: LocalDay;
  }[];
}

/**
 * Minutes of the chores that were done, by the minutes that each is set to: once for a chore, place and day, whether it was ticked or learnt
 * from what was logged. A chore that is off counts by its ticks alone.
 */
export function choreMinutes(chores: readonly Chore[], { ticks, acts }: WorkDone): number {
  return chores.reduce((sum, chore) => {
    const done = new Set(
      ticks.filter(({ choreId }) => choreId === chore.id).map((tick) => `${placeKey(tick)} ${tick.day}`),
    );
    if (!chore.off) {
      for (const { act, tubId, rack, day } of acts) {
        if (act === chore.act) done.add(`${placeKey(placeOfAct(chore, tubId, rack))} ${day}`);
      }
    }
    return sum + done.size * chore.minutes;
  }, 0);
}

function placeOfAct({ id, scope }: Chore, tubId: number, rack: string): ChorePlace {
  return { choreId: id, tubId: scope === 'tub' ? tubId : null, rack: scope === 'rack' ? rack : null };
}
