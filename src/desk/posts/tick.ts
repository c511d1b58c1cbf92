import {
  type By,
  type ChoreTarget,
  isMeasured,
  type LocalDay,
  type Refusal,
  rackOfTarget,
} from '../../domain/index.ts';
import { type Desk, nth, todayOf } from '../desk.ts';
import { tubById } from '../find.ts';
import { type ChoreTicked, tickTargets } from '../rota/done.ts';
import { type RotaItem, rotaToday } from '../rota/rota.ts';
import { isAt, stopOf } from '../rota/round.ts';

/** What came of ticking several chores of a post at once. */
export interface TickedTogether {
  readonly ticked: readonly ChoreTicked[];
  /** What was asked about or refused, with the chore and tub that it was about. */
  readonly refused: readonly { readonly chore: string; readonly tub: string | undefined; readonly fault: Refusal }[];
}

/** Whether a post of `day` spoke of an item: what was planned ahead of its day belongs to today's post only. */
const spokeOf = (item: RotaItem, day: LocalDay, today: LocalDay): boolean => day === today || item.due.dueOn <= day;

/**
 * Ticks all that is open in the rack of a tub, by the post of a day. Readings are left: they are done by logging what the kit shows.
 */
export function tickRack(desk: Desk, by: By, day: LocalDay, tubId: number): TickedTogether {
  const rack = tubById(desk, tubId)?.rack;
  return tickItems(desk, by, day, ({ due }) => rackOfTarget(due.target) === rack && !isMeasured(due.chore));
}

/** Ticks the chosen items of a list; each value is a chore's id, and the id of a tub that it is about where there is one ("4.12", "7."). */
export function tickChosen(desk: Desk, by: By, day: LocalDay, values: readonly string[]): TickedTogether {
  const chosen = values.map((value) => {
    const [choreId, tubId] = value.split('.');
    const tub = tubId ? tubById(desk, Number(tubId)) : undefined;
    return { choreId: Number(choreId), tubId: tub?.id ?? null, rack: tub?.rack ?? null };
  });
  return tickItems(desk, by, day, ({ due: { chore, target } }) =>
    chosen.some(
      (one) =>
        one.choreId === chore.id &&
        (target.of === 'tub' ? target.tubId === one.tubId : target.of === 'business' || target.rack === one.rack),
    ),
  );
}

/** Ticks a chore at a stop of the round, or (0) all that is open there, readings left out. */
export function tickAtStop(desk: Desk, by: By, day: LocalDay, key: string, choreId: number): TickedTogether {
  const stop = stopOf(desk, key);
  return tickItems(
    desk,
    by,
    day,
    ({ due: { chore, target } }) =>
      stop !== undefined && isAt(stop, target) && (choreId === 0 ? !isMeasured(chore) : chore.id === choreId),
  );
}

function tickItems(desk: Desk, by: By, day: LocalDay, isMeant: (item: RotaItem) => boolean): TickedTogether {
  return desk.store.write(() => {
    const today = todayOf(desk);
    const open = rotaToday(desk).filter((item) => item.done === null && spokeOf(item, day, today) && isMeant(item));
    const ticked: ChoreTicked[] = [];
    const refused: TickedTogether['refused'][number][] = [];
    for (const [index, { chore, targets }] of together(open).entries()) {
      const result = tickTargets(desk, nth(by, index), chore, targets);
      const [target] = targets;
      if (result.ok) ticked.push(result.value);
      else
        refused.push({ chore: chore.name, tub: target?.of === 'tub' ? target.name : undefined, fault: result.fault });
    }
    return { ticked, refused };
  });
}

/** Water changes one by one, of any other chore all targets in one entry. */
function together(items: readonly RotaItem[]): { chore: RotaItem['due']['chore']; targets: ChoreTarget[] }[] {
  const groups: { chore: RotaItem['due']['chore']; targets: ChoreTarget[] }[] = [];
  for (const { due } of items) {
    const group = due.chore.act === 'change' ? undefined : groups.find(({ chore }) => chore.id === due.chore.id);
    if (group === undefined) groups.push({ chore: due.chore, targets: [due.target] });
    else group.targets.push(due.target);
  }
  return groups;
}
