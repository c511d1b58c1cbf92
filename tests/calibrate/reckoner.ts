import type { ColonyEvent, ColonyTub, LocalDay } from '../../src/domain/index.ts';

/** An estimate and its 80 % range, whole animals. */
export interface Estimate {
  readonly low: number;
  readonly median: number;
  readonly high: number;
}

/** What a way of reckoning says on a day. */
export interface Figures {
  /** Free to promise. */
  readonly free: number;
  /** Saleable animals of each tub, and of all. */
  readonly tubs: readonly Estimate[];
  readonly total: Estimate;
  /** Saleable animals of all tubs on a later day if so many are sold a week; null: it cannot tell. */
  readonly ahead: ((until: LocalDay, weekly: number) => Estimate) | null;
}

/** A way of reckoning: it is told what a couple logs, and asked. */
export interface Reckoner {
  log(tub: number, event: ColonyEvent): void;
  /** Null while a tub is not counted. */
  figures(on: LocalDay, holdBack: number, promised: number): Figures | null;
}

export type OpenReckoner = (tubs: readonly ColonyTub[]) => Reckoner;
