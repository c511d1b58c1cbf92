import {
  type ArrivedParcel,
  airBandOf,
  amount,
  animalsOf,
  dayOf,
  daysBetween,
  type GuaranteeCost,
  guaranteeCost,
  instantAt,
  type LocalDay,
  latestOnTheWay,
  monthsBefore,
  ok,
  type Refusal,
  type Result,
  type SurvivalBy,
  type SurvivalRecord,
  survivalRecord,
  type WallTime,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk, todayOf } from '../desk.ts';
import { onItsWay } from '../dispatch/places.ts';

type Named = SurvivalBy<number> & { readonly name: string };

/** How parcels of a stretch arrived, and what the guarantee came to. */
export interface ClaimRecord extends Omit<SurvivalRecord, 'byLine' | 'byTub'> {
  readonly from: LocalDay;
  readonly to: LocalDay;
  readonly months: number;
  readonly byLine: readonly Named[];
  readonly byTub: readonly Named[];
  readonly cost: GuaranteeCost;
  /** Parcels that left of which nobody has said how they arrived. */
  readonly unheard: number;
}

/** The record of the parcels that left in the last months, those on the way left out of survival. */
export function claimRecord(desk: Desk, wanted: number): Result<ClaimRecord, Refusal> {
  const checked = amount('months', wanted);
  if (!checked.ok) return checked;
  const months = checked.value;
  const { zone } = businessOf(desk);
  const to = todayOf(desk);
  const from = monthsBefore(to, months);
  const since = instantAt(from, '00:00' as WallTime, zone);
  const sales = desk.store.sales.all();
  const left = sales.filter(({ sentAt }) => sentAt !== null && sentAt >= since);
  const known = left.filter(({ arrival, claim }) => arrival !== null || claim !== null);
  const { byLine, byTub, ...record } = survivalRecord(known.map((sale) => arrivedParcel(desk, sale, zone)));
  const lines = new Map(desk.store.tubs.lines().map(({ id, name }) => [id, name]));
  const tubs = new Map(desk.store.tubs.tubs().map(({ id, name }) => [id, name]));
  return ok({
    ...record,
    ...{ from, to, months },
    byLine: byLine.map((group) => ({ ...group, name: lines.get(group.key) ?? 'an undone line' })),
    byTub: byTub.map((group) => ({ ...group, name: tubs.get(group.key) ?? 'an undone tub' })),
    cost: costOf(desk, left, sales),
    unheard: left.length - known.length,
  });
}

function arrivedParcel(desk: Desk, sale: BookedSale, zone: string): ArrivedParcel {
  const { arrival, claim, sentAt } = sale;
  const leftOn = dayOf(sentAt ?? sale.addedAt, zone);
  const arrivedOn = arrival === null ? null : dayOf(arrival.deliveredAt, zone);
  const way = { day: leftOn, lastDay: arrivedOn ?? leftOn };
  const weather = onItsWay(desk.store.weather.weather(way.day, way.lastDay), sale);
  return {
    catches: desk.store.parcels.parcels(sale.id).at(-1)?.catches ?? [],
    ordered: animalsOf(sale).ordered,
    dead: Math.max(arrival?.dead ?? 0, claim?.dead ?? 0),
    transitDays: arrivedOn === null ? null : daysBetween(leftOn, arrivedOn),
    air: airBandOf(latestOnTheWay({ ...way, weather })),
  };
}

/** What the promise cost over sales that left; those that make another good are told with it. */
function costOf(desk: Desk, left: readonly BookedSale[], all: readonly BookedSale[]): GuaranteeCost {
  const resends = new Map(
    all.filter(({ claim }) => claim?.settled?.how === 'resend').map(({ id }) => [id, desk.store.sales.resendOf(id)]),
  );
  const again = new Set(resends.values());
  return guaranteeCost(
    left
      .filter(({ id }) => !again.has(id))
      .map(({ id, items, claim }) => {
        const resendId = resends.get(id);
        const resend = all.find((sale) => sale.id === resendId);
        return {
          items,
          refundMinor: claim?.settled?.how === 'refund' ? claim.settled.amountMinor : 0,
          resend: resend === undefined || resend.cancelled !== null ? null : resend,
        };
      }),
  );
}
