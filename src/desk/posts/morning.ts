import type { LocalDay, Tub } from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { type Desk, todayOf } from '../desk.ts';
import { toPackOn } from '../dispatch/day.ts';
import { type JudgedDay, judgeDay, judgeSale } from '../dispatch/judge.ts';
import { tubById } from '../find.ts';
import { backupFailure } from '../ledger.ts';
import { type Cover, coverSoon } from '../rota/cover.ts';
import { type RotaItem, rotaToday } from '../rota/rota.ts';
import { openClaims, salesOn, unheardOf } from '../sales/list.ts';
import { tubsInTrouble } from '../tubs/trouble.ts';
import { type TubState, tubsToWatch } from '../tubs/tubState.ts';
import { type WaterToPrepare, waterToPrepare } from '../water/prepare.ts';
import { type Missed, missedPosts } from './missed.ts';

/** A parcel with the verdict on a day as things stand now. */
export interface JudgedParcel {
  readonly sale: BookedSale;
  readonly judged: JudgedDay;
}

/** What the morning says. */
export interface MorningPost {
  readonly day: LocalDay;
  /** The day's rota, done and open. */
  readonly items: readonly RotaItem[];
  /** Paid parcels to send today, those left over from earlier days too, with the verdict on today. */
  readonly parcels: readonly JudgedParcel[];
  readonly sent: readonly BookedSale[];
  readonly unpaid: readonly BookedSale[];
  /** New water for the changes still open. */
  readonly water: readonly WaterToPrepare[];
  readonly watch: readonly TubState[];
  readonly troubled: ReturnType<typeof tubsInTrouble>;
  readonly claims: readonly BookedSale[];
  /** Should have arrived by now, and nobody has said how. */
  readonly unheard: readonly BookedSale[];
  readonly missed: Missed | null;
  /** Why last night's backup failed; null: it did not. */
  readonly backupFailed: string | null;
  /** The cover for days soon, or now, on which all are away. */
  readonly cover: Cover | null;
}

export function morningPost(desk: Desk): MorningPost {
  const day = todayOf(desk);
  const { unpaid, sent } = salesOn(desk, day);
  const items = rotaToday(desk);
  return {
    day,
    items,
    parcels: toPackOn(desk, day).map((sale) => ({ sale, judged: judgeDay(desk, day, sale) })),
    sent,
    unpaid,
    water: waterToPrepare(desk, openChanges(desk, items)),
    watch: tubsToWatch(desk),
    troubled: tubsInTrouble(desk),
    claims: openClaims(desk),
    unheard: unheardOf(desk),
    missed: missedPosts(desk, 'morning', day),
    backupFailed: backupFailure(desk, day),
    cover: coverSoon(desk),
  };
}

/** The water changes of a rota that are still open. */
function openChanges(desk: Desk, items: readonly RotaItem[]): { tub: Tub; litres: number }[] {
  return items.flatMap(({ tubId, litres, done }) => {
    const tub = tubId === null || litres === null || done !== null ? undefined : tubById(desk, tubId);
    return tub === undefined || litres === null ? [] : [{ tub, litres }];
  });
}

/** Sales with a dispatch day, each with its verdict. */
export const judgedParcels = (desk: Desk, sales: readonly BookedSale[]): JudgedParcel[] =>
  sales.flatMap((sale) => {
    const judged = judgeSale(desk, sale);
    return judged === null ? [] : [{ sale, judged }];
  });
