import type { Instant, LocalDay } from './day.ts';

/** A colour line bred apart from the others. */
export interface Line {
  readonly id: number;
  readonly name: string;
  /** Price of one animal in minor units; null: not set. */
  readonly priceMinor: number | null;
  /** Length at which an animal is saleable, mm. */
  readonly saleableMm: number;
  /** Breeders held back per tub, animals. */
  readonly holdBack: number;
}

/** Longest name of a tub, characters: it stands in the first line of answers, which is a phone's notification. */
export const mostTubName = 24;

export const tubRoles = ['breeding', 'raising', 'selling', 'apart'] as const;
export type TubRole = (typeof tubRoles)[number];

/** A tub as it is now. */
export interface Tub {
  readonly id: number;
  readonly name: string;
  readonly lineId: number;
  readonly lineName: string;
  /** Gross volume, L. */
  readonly litres: number;
  /** Water in it: gross less gravel and the gap under the rim, L. */
  readonly netLitres: number;
  readonly rack: string;
  readonly role: TubRole;
  readonly addedAt: Instant;
  readonly retired: { readonly at: Instant; readonly reason: string } | null;
}

/** Water values as measured; null: not measured. */
export interface WaterValues {
  readonly tempC: number | null;
  readonly ph: number | null;
  readonly ghDgh: number | null;
  readonly khDkh: number | null;
  readonly tdsMgL: number | null;
  /** Total ammonia as the kit shows it (ion), mg/L. */
  readonly ammoniaMgL: number | null;
  /** Nitrite as NO2, mg/L. */
  readonly nitriteMgL: number | null;
  /** Nitrate as NO3, mg/L. */
  readonly nitrateMgL: number | null;
}

export type WaterValueName = keyof WaterValues;

/** Nothing measured. */
export const noWaterValues: WaterValues = {
  tempC: null,
  ph: null,
  ghDgh: null,
  khDkh: null,
  tdsMgL: null,
  ammoniaMgL: null,
  nitriteMgL: null,
  nitrateMgL: null,
};

/** What every dated fact carries. */
export interface Logged {
  readonly id: number;
  readonly entryId: number;
  /** When it happened (which may be before it was logged). */
  readonly at: Instant;
  /** Name of the person who logged it. */
  readonly by: string;
  readonly loggedAt: Instant;
}

export interface Reading extends Logged, WaterValues {
  readonly tubId: number;
  readonly note: string | null;
}

/** A partial water change. */
export interface Change extends Logged {
  readonly tubId: number;
  readonly litres: number;
  readonly note: string | null;
}

export type TopUpWater = 'tap' | 'soft';

/** Evaporated water replaced. */
export interface TopUp extends Logged {
  readonly tubId: number;
  readonly litres: number;
  readonly water: TopUpWater;
}

/** Ways of counting that are chosen by whoever types a count. */
export const countMethods = ['full', 'dish', 'glance'] as const;
export type TypedCountMethod = (typeof countMethods)[number];

/** How a stored count came about; `passes`: estimated from removal passes. */
export type CountMethod = TypedCountMethod | 'passes';

/** How many removal passes a count can rest on. */
export const mostPasses = 4;

export interface StockCount extends Logged {
  readonly tubId: number;
  readonly saleable: number;
  readonly juveniles: number | null;
  readonly berried: number | null;
  readonly method: CountMethod;
  /** What each removal pass caught, in order, two to four of them; null unless counted by passes. */
  readonly passes: readonly number[] | null;
}

export const stages = ['saleable', 'juvenile'] as const;
export type Stage = (typeof stages)[number];

export interface Move extends Logged {
  readonly fromTubId: number;
  readonly toTubId: number;
  readonly number: number;
  readonly stage: Stage;
}

export interface Loss extends Logged {
  readonly tubId: number;
  readonly number: number;
  readonly cause: string | null;
}

/** A tub off sale, up to and including `until`; null: until lifted. */
export interface Hold extends Logged {
  readonly tubId: number;
  readonly reason: string;
  readonly until: LocalDay | null;
}
