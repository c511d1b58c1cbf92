import {
  type ChoreTarget,
  isMeasured,
  offSaleOn,
  type RoundStop,
  roundStops,
  stopFrom,
  stopKey,
  type Tub,
} from '../../domain/index.ts';
import { businessOf, type Desk, todayOf } from '../desk.ts';
import { tubById, tubsInUse } from '../find.ts';
import { tubsInTrouble } from '../tubs/trouble.ts';
import { type WaterToPrepare, waterToPrepare } from '../water/prepare.ts';
import { type RotaItem, rotaToday } from './rota.ts';

/** Where one stands on the round. */
export interface RoundAt {
  readonly stop: RoundStop;
  readonly key: string;
  /** Null at a rack and at the end. */
  readonly tub: Tub | null;
  /** What is open here. */
  readonly items: readonly RotaItem[];
  /** New water for the change that is open here; null: none. */
  readonly water: WaterToPrepare | null;
  readonly jugLitres: number;
  readonly isInTrouble: boolean;
  /** Why the tub is off sale; null: it is not. */
  readonly heldFor: string | null;
  /** The how manyth of today's stops it is. */
  readonly place: number;
}

export interface RoundState {
  /** Null: nothing is open from here on. */
  readonly at: RoundAt | null;
  /** Today's stops, done ones too. */
  readonly stops: number;
  /** All that is open today, wherever it is. */
  readonly open: readonly RotaItem[];
  readonly done: number;
}

/** Whether an item of the rota is one of a stop. */
export function isAt(stop: RoundStop, target: ChoreTarget): boolean {
  switch (target.of) {
    case 'business':
      return stop.of === 'business';
    case 'rack':
      return stop.of === 'rack' && stop.rack === target.rack;
    case 'tub':
      return stop.of === 'tub' && stop.tubId === target.tubId;
  }
}

/** The stop that a control names; undefined where its tub is gone. */
export const stopOf = (desk: Desk, key: string): RoundStop | undefined =>
  roundStops(tubsInUse(desk)).find((stop) => stopKey(stop) === key);

/**
 * The round from a place on, `beyond` it or at it still; null: from the beginning. It follows from what is open on the rota today, so it can
 * be left at any stop and taken up by whoever comes.
 */
export function roundFrom(desk: Desk, place: { readonly at: string; readonly beyond: boolean } | null): RoundState {
  const items = rotaToday(desk);
  const open = items.filter(({ done }) => done === null);
  const all = roundStops(tubsInUse(desk));
  const todays = all.filter((stop) => items.some(({ due }) => isAt(stop, due.target)));
  const stop = stopFrom(all, place, (one) => open.some(({ due }) => isAt(one, due.target)));
  return {
    at: stop === null ? null : roundAt(desk, stop, open, todays.indexOf(stop) + 1),
    stops: todays.length,
    open,
    done: items.length - open.length,
  };
}

function roundAt(desk: Desk, stop: RoundStop, open: readonly RotaItem[], place: number): RoundAt {
  const items = open.filter(({ due }) => isAt(stop, due.target));
  const tub = stop.of === 'tub' ? (tubById(desk, stop.tubId) ?? null) : null;
  const litres = items.find(({ due }) => due.chore.act === 'change')?.litres ?? null;
  const [water = null] = tub === null || litres === null ? [] : waterToPrepare(desk, [{ tub, litres }]);
  return {
    stop,
    key: stopKey(stop),
    tub,
    items: [...items].sort((a, b) => turnOf(a) - turnOf(b)),
    water,
    jugLitres: businessOf(desk).jugLitres,
    isInTrouble: tub !== null && tubsInTrouble(desk).some((one) => one.tub.id === tub.id),
    heldFor: tub === null ? null : (offSaleOn(desk.store.animals.latestHold(tub.id), todayOf(desk))?.reason ?? null),
    place,
  };
}

/** The change first; last what a kit shows, which takes longest and is logged by its own form. */
const turnOf = ({ due: { chore } }: RotaItem): number => (chore.act === 'change' ? 0 : isMeasured(chore) ? 2 : 1);
