import { addDays, type LocalDay } from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { type Desk, todayOf } from '../desk.ts';
import { toPackOn } from '../dispatch/day.ts';
import { shortFor } from '../dispatch/packingNeeds.ts';
import { type RotaItem, rotaToday } from '../rota/rota.ts';
import { stateOf } from '../sales/find.ts';
import { openClaims, salesOn } from '../sales/list.ts';
import { type TubState, tubsToWatch } from '../tubs/tubState.ts';
import { type Missed, missedPosts } from './missed.ts';
import { type JudgedParcel, judgedParcels } from './morning.ts';

/** What the evening says. */
export interface EveningPost {
  readonly day: LocalDay;
  /** Today's rota, done and open. */
  readonly items: readonly RotaItem[];
  readonly tomorrow: LocalDay;
  /** Parcels of tomorrow, paid or kept, judged again. */
  readonly parcels: readonly JudgedParcel[];
  readonly unpaid: readonly BookedSale[];
  /** What tomorrow's parcels lack: animals, goods, boxes and bags. */
  readonly short: readonly { readonly what: string; readonly asked: number; readonly there: number }[];
  /** Paid parcels of today and before that nobody marked as sent. */
  readonly notSent: readonly BookedSale[];
  readonly missed: Missed | null;
  /** What the morning post would have said, where that was not sent. */
  readonly fromMorning: { readonly watch: readonly TubState[]; readonly claims: readonly BookedSale[] } | null;
}

/** What the evening has to say; null where nothing is left of today and tomorrow has no parcel. */
export function eveningPost(desk: Desk): EveningPost | null {
  const post = eveningState(desk);
  return isWorthSaying(post) ? post : null;
}

/** What is left of today and what tomorrow brings, also when that is nothing. */
export function eveningState(desk: Desk): EveningPost {
  const day = todayOf(desk);
  const tomorrow = addDays(day, 1);
  const { paid, unpaid } = salesOn(desk, tomorrow);
  const wasFolded = desk.store.jobRuns.ofDay('morning', day)?.state === 'folded';
  return {
    day,
    items: rotaToday(desk),
    tomorrow,
    parcels: judgedParcels(desk, [...paid, ...unpaid]),
    unpaid,
    short: shortFor(desk, tomorrow, [...paid, ...unpaid.filter((sale) => stateOf(desk, sale) === 'kept')]),
    notSent: toPackOn(desk, day),
    missed: missedPosts(desk, 'evening', day),
    fromMorning: wasFolded ? { watch: tubsToWatch(desk), claims: openClaims(desk) } : null,
  };
}

const isWorthSaying = ({ items, parcels, notSent, fromMorning }: EveningPost): boolean =>
  items.some(({ done }) => done === null) ||
  parcels.length > 0 ||
  notSent.length > 0 ||
  (fromMorning !== null && (fromMorning.watch.length > 0 || fromMorning.claims.length > 0));
