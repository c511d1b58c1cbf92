import {
  amount,
  animalsOf,
  type By,
  type CheckStep,
  fail,
  type Instant,
  type LocalDay,
  ok,
  type PackingState,
  type ParcelCatches,
  type Refusal,
  type Result,
  type WaterValueName,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { type Desk, log } from '../desk.ts';
import { findSale, stateOf, wrongState } from '../sales/find.ts';
import { planCatches } from './catch.ts';
import { type PackingList, type ParcelToPack, packingList } from './day.ts';

/** Values that go on the slip: what the buyer matches the water by. */
const slipValues = ['tempC', 'ph', 'ghDgh', 'khDkh', 'tdsMgL'] as const satisfies readonly WaterValueName[];
export type SlipValue = (typeof slipValues)[number];

/** The last that is known of the water that a parcel's animals were in. */
export interface SlipWater {
  readonly tub: string;
  readonly values: readonly { readonly name: SlipValue; readonly value: number; readonly at: Instant }[];
}

/** A parcel to pack, as one works on it. */
export interface PackingParcel {
  readonly day: LocalDay;
  readonly parcel: ParcelToPack;
  readonly toSend: number;
  readonly slip: readonly SlipWater[];
  /** Its place among the day's parcels, from 1 up. */
  readonly place: number;
  readonly parcels: number;
  /** The next one that is not packed; null: none. */
  readonly next: number | null;
}

const isPacked = ({ steps, done }: PackingState): boolean => done === steps.length;

/** A parcel of a day's list as it stands; undefined: it is not on the list (any more). */
export function packingParcel(desk: Desk, day: LocalDay, saleId: number): PackingParcel | undefined {
  const list = packingList(desk, day);
  const index = list.parcels.findIndex(({ sale }) => sale.id === saleId);
  const parcel = list.parcels[index];
  if (parcel === undefined) return undefined;
  const tubs = [...new Set(parcel.catches.map(({ tub }) => tub))];
  return {
    day,
    parcel,
    toSend: animalsOf(parcel.sale).sent,
    slip: tubs.map((tub) => slipWater(desk, tub)),
    place: index + 1,
    parcels: list.parcels.length,
    next: nextToPack(list, index),
  };
}

/** The first parcel after one of the list that is not packed, from the start again after the last. */
function nextToPack({ parcels }: PackingList, index: number): number | null {
  const others = [...parcels.slice(index + 1), ...parcels.slice(0, Math.max(0, index))];
  return others.find(({ packed }) => !isPacked(packed))?.sale.id ?? null;
}

/** The first parcel of a day that is not packed, else the first; undefined: the day has none. */
export function firstToPack(desk: Desk, day: LocalDay): number | undefined {
  const list = packingList(desk, day);
  return nextToPack(list, -1) ?? list.parcels[0]?.sale.id;
}

function slipWater(desk: Desk, name: string): SlipWater {
  const tub = desk.store.tubs.tubs().find((each) => each.name === name);
  const values = slipValues.flatMap((value) => {
    const reading = tub === undefined ? undefined : desk.store.water.latestWith(tub.id, value);
    const measured = reading?.[value] ?? null;
    return reading === undefined || measured === null ? [] : [{ name: value, value: measured, at: reading.at }];
  });
  return { tub: name, values };
}

export interface CheckInput {
  readonly sale: string;
  readonly day: LocalDay;
  readonly step: CheckStep;
  /** Animals that were counted; what is to be sent if not said. */
  readonly number?: number | undefined;
}

/**
 * Ticks a step of packing a parcel that is paid and not sent. A count is kept as it was said, also where it is not the number to send; a
 * catch is kept with its tubs, so that what is paid later plans around it.
 */
export function checkParcel(desk: Desk, by: By, input: CheckInput): Result<{ readonly entryId: number }, Refusal> {
  const { step, day } = input;
  return desk.store.write(() => {
    const found = findSale(desk, input.sale, ['paid']);
    if (!found.ok) return found;
    const sale = found.value;
    if (stateOf(desk, sale) !== 'paid') return wrongState(desk, sale, 'packed');
    const isCount = step === 'counted' || step === 'again';
    const number = isCount ? counted(sale, input.number) : ok(null);
    if (!number.ok) return number;
    const list = packingList(desk, day).parcels.map((parcel) => parcel.sale);
    const plan =
      step === 'caught'
        ? planCatches(desk, [...list.filter(({ id }) => id !== sale.id), sale])
        : new Map<number, ParcelCatches>();
    const catches = plan.get(sale.id)?.catches ?? [];
    const entryId = log(desk, by, 'check', `parcel ${sale.id}: ${summaries[step]}`, (entry, at) => {
      const check = { saleId: sale.id, at, step, number: number.value, forDay: day, catches };
      desk.store.parcelChecks.add(entry, check);
    });
    return ok({ entryId });
  });
}

function counted(sale: BookedSale, typed: number | undefined): Result<number, Refusal> {
  const { sent } = animalsOf(sale);
  return sent === 0
    ? fail({ kind: 'nothing-given', what: 'animals to count: it holds none' })
    : amount('animals', typed ?? sent);
}

const summaries: Record<CheckStep, string> = {
  caught: 'caught',
  counted: 'counted',
  again: 'counted a second time',
  stood: 'bags stood',
  slip: 'slip in',
  label: 'label on',
};
