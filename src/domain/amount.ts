import type { AmountName, Refusal } from './refusal.ts';
import { fail, ok, type Result } from './result.ts';

interface Bounds {
  readonly min: number;
  readonly max: number;
  readonly whole: boolean;
}

/** What each amount can be in a business of this size. Bounds are ours: wide enough for any honest entry, narrow enough to catch a slip. */
const bounds: Record<AmountName, Bounds> = {
  litres: { min: 0.1, max: 2000, whole: false },
  'net litres': { min: 1, max: 2000, whole: false },
  percent: { min: 1, max: 100, whole: false },
  animals: { min: 1, max: 5000, whole: true },
  saleable: { min: 0, max: 5000, whole: true },
  juveniles: { min: 0, max: 5000, whole: true },
  berried: { min: 0, max: 5000, whole: true },
  'pass 1': { min: 0, max: 5000, whole: true },
  'pass 2': { min: 0, max: 5000, whole: true },
  'pass 3': { min: 0, max: 5000, whole: true },
  'pass 4': { min: 0, max: 5000, whole: true },
  pieces: { min: 1, max: 5000, whole: true },
  price: { min: 0, max: 100_000, whole: false },
  postage: { min: 0, max: 10_000, whole: false },
  amount: { min: 0, max: 100_000, whole: false },
  'saleable-mm': { min: 5, max: 40, whole: false },
  'hold-back': { min: 0, max: 1000, whole: true },
  days: { min: 1, max: 3650, whole: true },
  months: { min: 1, max: 120, whole: true },
  minutes: { min: 0.5, max: 600, whole: false },
  interval: { min: 1, max: 60, whole: true },
  share: { min: 0, max: 100, whole: false },
  'transit-days': { min: 1, max: 7, whole: true },
  'slack-days': { min: 0, max: 5, whole: true },
  dead: { min: 0, max: 5000, whole: true },
  low: { min: -50, max: 50, whole: false },
  high: { min: -50, max: 60, whole: false },
  'source-nitrate': { min: 0, max: 200, whole: false },
  'source-tds': { min: 0, max: 2000, whole: false },
  'source-gh': { min: 0, max: 50, whole: false },
  'source-kh': { min: 0, max: 40, whole: false },
  'target-gh': { min: 0, max: 50, whole: false },
  'target-kh': { min: 0, max: 40, whole: false },
  'target-tds': { min: 0, max: 3000, whole: false },
  'target-nitrate': { min: 0, max: 200, whole: false },
  'salt-gh': { min: 0, max: 10, whole: false },
  'salt-kh': { min: 0, max: 10, whole: false },
  bucket: { min: 1, max: 200, whole: false },
  jug: { min: 0.1, max: 50, whole: false },
  altitude: { min: -400, max: 4000, whole: false },
  'nitrate-limit': { min: 1, max: 200, whole: false },
  'keep-days': { min: 0, max: 60, whole: true },
  'claim-hours': { min: 1, max: 240, whole: true },
  'full-order-level': { min: 50, max: 99.9, whole: false },
};

/** `typed` if it can be such an amount, else a refusal with the bounds. NaN and infinities are refused. */
export function amount(name: AmountName, typed: number): Result<number, Refusal> {
  const { min, max, whole } = bounds[name];
  const possible = typed >= min && typed <= max && (!whole || Number.isInteger(typed));
  return possible ? ok(typed) : fail({ kind: 'impossible-amount', amount: name, typed, min, max, whole });
}

/** The first of several named amounts that cannot be; amounts that were not given are passed over. */
export function firstImpossible(given: readonly (readonly [AmountName, number | null | undefined])[]): Refusal | null {
  for (const [name, typed] of given) {
    if (typed === null || typed === undefined) continue;
    const checked = amount(name, typed);
    if (!checked.ok) return checked.fault;
  }
  return null;
}
