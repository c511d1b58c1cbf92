import { splitMinor } from '../money/split.ts';
import type { Catch } from '../sales/sale.ts';
import { type AirBand, airBands } from './airBand.ts';
import { type ProportionInterval, wilsonInterval } from './interval.ts';

/** A parcel of which it is known how it arrived. */
export interface ArrivedParcel {
  readonly catches: readonly Catch[];
  /** Animals that were ordered, extras not among them. */
  readonly ordered: number;
  readonly dead: number;
  /** Local days from leaving to delivery; null: the delivery is not logged. */
  readonly transitDays: number | null;
  readonly air: AirBand;
}

/** Animals sent and alive on arrival, with the range that the true share is in. */
export interface Survival {
  readonly sent: number;
  readonly alive: number;
  /** Parcels with any of them. */
  readonly parcels: number;
  /** Wilson, 95 %, each animal by itself: animals of one parcel fare alike, so the truth may lie outside more often. */
  readonly interval: ProportionInterval;
  /** Too few for the share to say much: its range reaches more than three points below what was seen. Our choice. */
  readonly few: boolean;
}

export interface SurvivalBy<Key> extends Survival {
  readonly key: Key;
  /** The whole range, widened as parcels differ (`unlikeness`), lies under the share of all: hardly chance. */
  readonly worse: boolean;
}

/** Survival of all that was sent, of whole orders, and by what it may hang on, each kind in its own order. */
export interface SurvivalRecord {
  readonly all: Survival;
  /** Parcels in which at least as many were alive as were ordered, extras included. */
  readonly fullOrders: { readonly full: number; readonly parcels: number; readonly interval: ProportionInterval };
  readonly byLine: readonly SurvivalBy<number>[];
  /** The lowest share first. */
  readonly byTub: readonly SurvivalBy<number>[];
  readonly byTransitDays: readonly SurvivalBy<number | null>[];
  readonly byAir: readonly SurvivalBy<AirBand>[];
  /** Parcels with dead of more than one line or tub: nobody sorts them, so they are shared by number. */
  readonly shared: number;
}

/** How far the range may reach below the share that was seen before a number counts as small; our choice. */
const fewBelow = 0.03;

interface Part {
  readonly parcel: number;
  readonly catch: Catch;
  readonly dead: number;
}

/**
 * Survival on the way over parcels that arrived. The dead of a parcel with several catches are shared among them in whole animals, in
 * proportion to their numbers (largest remainders); more dead than sent count as all. Parcels without animals are left out.
 */
export function survivalRecord(arrived: readonly ArrivedParcel[]): SurvivalRecord {
  const parcels = arrived.filter(({ catches }) => catches.length > 0);
  const parts = parcels.flatMap((parcel, index) => partsOf(parcel, index));
  const all = survivalOf(parts);
  const unlike = unlikeness(parcels, shareOf(all));
  const full = parcels.filter((parcel) => sentIn(parcel) - deadIn(parcel) >= parcel.ordered).length;
  const by = <Key>(keyOf: (part: Part) => Key, order: (a: SurvivalBy<Key>, b: SurvivalBy<Key>) => number) =>
    grouped(parts, { share: shareOf(all), unlike }, keyOf).sort(order);
  const parcelOf = ({ parcel }: Part): ArrivedParcel | undefined => parcels[parcel];
  return {
    all,
    fullOrders: { full, parcels: parcels.length, interval: wilsonInterval(full, parcels.length) },
    byLine: by(
      (part) => part.catch.lineId,
      (a, b) => a.key - b.key,
    ),
    byTub: by(
      (part) => part.catch.tubId,
      (a, b) => shareOf(a) - shareOf(b) || b.sent - a.sent || a.key - b.key,
    ),
    byTransitDays: by(
      (part) => parcelOf(part)?.transitDays ?? null,
      (a, b) => (a.key ?? Number.POSITIVE_INFINITY) - (b.key ?? Number.POSITIVE_INFINITY),
    ),
    byAir: by(
      (part) => parcelOf(part)?.air ?? 'unknown',
      (a, b) => airBands.indexOf(a.key) - airBands.indexOf(b.key),
    ),
    shared: parcels.filter((parcel) => parcel.catches.length > 1 && deadIn(parcel) > 0).length,
  };
}

const sentIn = ({ catches }: ArrivedParcel): number => catches.reduce((sum, { number }) => sum + number, 0);
const deadIn = (parcel: ArrivedParcel): number => Math.min(parcel.dead, sentIn(parcel));
/** The share that lived, 0 to 1; of nothing sent all. */
const shareOf = ({ alive, sent }: Pick<Survival, 'alive' | 'sent'>): number => (sent === 0 ? 1 : alive / sent);

function partsOf(parcel: ArrivedParcel, index: number): Part[] {
  const dead = splitMinor(
    deadIn(parcel),
    parcel.catches.map(({ number }) => number),
  );
  return parcel.catches.map((caught, at) => ({ parcel: index, catch: caught, dead: dead[at] ?? 0 }));
}

function survivalOf(parts: readonly Part[]): Survival {
  const sent = parts.reduce((sum, { catch: { number } }) => sum + number, 0);
  const alive = sent - parts.reduce((sum, { dead }) => sum + dead, 0);
  const interval = wilsonInterval(alive, sent);
  const parcels = new Set(parts.map(({ parcel }) => parcel)).size;
  return { sent, alive, parcels, interval, few: shareOf({ sent, alive }) - interval.low > fewBelow };
}

/**
 * How much more parcels differ in what died than animals that fare each by itself would, 1 and up: φ = Σ (dead − n·q)²/(n·q·(1−q))/(parcels − 1),
 * q the share of all that died. So many animals tell as much as one by itself. Pearson's dispersion of a quasi-binomial (McCullagh & Nelder
 * 1989, 4.5.2), from memory; 1 where nothing, all, or a single parcel is known.
 */
export function unlikeness(parcels: readonly ArrivedParcel[], share: number): number {
  const known = parcels.filter((parcel) => sentIn(parcel) > 0);
  if (known.length < 2 || share <= 0 || share >= 1) return 1;
  const squares = known.map((parcel) => {
    const sent = sentIn(parcel);
    return (deadIn(parcel) - sent * (1 - share)) ** 2 / (sent * share * (1 - share));
  });
  return Math.max(1, squares.reduce((sum, square) => sum + square, 0) / (known.length - 1));
}

function grouped<Key>(
  parts: readonly Part[],
  all: { readonly share: number; readonly unlike: number },
  keyOf: (part: Part) => Key,
): SurvivalBy<Key>[] {
  const groups = new Map<Key, Part[]>();
  for (const part of parts) groups.set(keyOf(part), [...(groups.get(keyOf(part)) ?? []), part]);
  return [...groups].map(([key, own]) => {
    const survival = survivalOf(own);
    const { high } = wilsonInterval(survival.alive / all.unlike, survival.sent / all.unlike);
    return { key, ...survival, worse: high < all.share };
  });
}
