import type { LocalDay, MonthDay, WallTime, Weekday } from './day.ts';

/** How people read temperatures, lengths and volumes; storage is always metric. */
export type Units = 'metric' | 'us';

/** The settings of the business, each with the default that holds until the couple says otherwise. */
export interface Business {
  readonly name: string;
  /** IANA time zone of every local day and wall time. */
  readonly zone: string;
  /** Public-holiday region, ISO 3166-1 with an optional subdivision (`NL`, `GB-ENG`); null: not said yet, no holidays known. */
  readonly region: string | null;
  /** ISO 4217 code. */
  readonly currency: string;
  readonly units: Units;
  /** Source water as nitrate ion, mg/L. */
  readonly sourceNitrateMgL: number;
  readonly sourceTdsMgL: number | null;
  readonly sourceGhDgh: number | null;
  readonly sourceKhDkh: number | null;
  /** What prepared water should hold, nitrate at most; null: tap water goes in as it is. */
  readonly targetGhDgh: number | null;
  readonly targetKhDkh: number | null;
  readonly targetTdsMgL: number | null;
  readonly targetNitrateMgL: number | null;
  /** What 1 g of the mineral salt in 10 L adds, by its label; null: none is at hand. */
  readonly saltGhDgh: number | null;
  readonly saltKhDkh: number | null;
  /** The bucket in which water is prepared, L. */
  readonly bucketLitres: number;
  /** The jug with which new water goes into a tub, L. */
  readonly jugLitres: number;
  /** Height of the place above the sea, m. */
  readonly altitudeM: number;
  /** Nitrate (as NO3) that a tub should stay under, mg/L. */
  readonly nitrateLimitMgL: number;
  /** Bounds of one water change, per cent of the net volume. */
  readonly changeMinPercent: number;
  readonly changeMaxPercent: number;
  readonly changeIntervalDays: number;
  /** Steps of the nitrate colour kit, mg/L, ascending. */
  readonly kitStepsMgL: readonly number[];
  readonly dispatchDays: readonly Weekday[];
  readonly transitDays: number;
  readonly slackDays: number;
  /** Bounds of the air on the way: night low and day high, °C. */
  readonly minTempC: number;
  readonly maxTempC: number;
  readonly keepDays: number;
  readonly claimHours: number;
  readonly claimPhoto: boolean;
  readonly postageOwed: boolean;
  /** Chance that an order arrives full, per cent. */
  readonly fullOrderLevelPercent: number;
  readonly morningAt: WallTime;
  readonly eveningAt: WallTime;
  readonly weeklyOn: Weekday;
  readonly weeklyAt: WallTime;
  /** Channel of the posts when it is not the configured one. */
  readonly channelId: string | null;
}

/** Defaults of the first evening. Policy, kit steps and temperatures: common practice, no source. */
export const defaultBusiness: Business = {
  name: 'the rack',
  zone: 'UTC',
  region: null,
  currency: 'EUR',
  units: 'metric',
  sourceNitrateMgL: 5,
  sourceTdsMgL: null,
  sourceGhDgh: null,
  sourceKhDkh: null,
  targetGhDgh: null,
  targetKhDkh: null,
  targetTdsMgL: null,
  targetNitrateMgL: null,
  saltGhDgh: null,
  saltKhDkh: null,
  bucketLitres: 10,
  jugLitres: 2,
  altitudeM: 0,
  nitrateLimitMgL: 20,
  changeMinPercent: 10,
  changeMaxPercent: 25,
  changeIntervalDays: 7,
  kitStepsMgL: [0, 5, 10, 20, 40, 80, 160],
  dispatchDays: [1, 2, 3],
  transitDays: 1,
  slackDays: 1,
  minTempC: 5,
  maxTempC: 26,
  keepDays: 3,
  claimHours: 24,
  claimPhoto: true,
  postageOwed: false,
  fullOrderLevelPercent: 98,
  morningAt: '07:30' as WallTime,
  eveningAt: '18:00' as WallTime,
  weeklyOn: 7,
  weeklyAt: '17:00' as WallTime,
  channelId: null,
};

/** One of the people of the business. */
export interface Partner {
  readonly userId: string;
  readonly name: string;
  /** Part of the chore minutes, per cent; null: an equal part of what the others leave. */
  readonly sharePercent: number | null;
  /** Names of chores that this partner never does. */
  readonly never: readonly string[];
  readonly awayFrom: LocalDay | null;
  readonly awayTo: LocalDay | null;
  readonly owner: boolean;
}

/** A stretch of the year in which nothing living is sent, both ends included; it may run over the year's end. */
export interface ClosedWindow {
  readonly id: number;
  readonly name: string;
  readonly from: MonthDay;
  readonly to: MonthDay;
}
