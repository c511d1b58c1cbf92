import { type Instant, plusMs } from '../day.ts';
import type { Change, TopUp } from '../tub.ts';

/** How much of a tub evaporates and is changed, and what that does to minerals. */
export interface Creep {
  /** Days looked at. */
  readonly days: number;
  /** Share of the net volume a week that was topped up, with any water. */
  readonly evaporatedPerWeek: number;
  /** e: the part of it that was replaced by tap water. */
  readonly tapTopUpPerWeek: number;
  /** f: share of the net volume changed a week. */
  readonly changedPerWeek: number;
  /** How many times the source's minerals the tub settles at; null: nothing is changed, it rises without end. */
  readonly factor: number | null;
  /** Tap water for top-ups is worth giving up: a tenth over the source or more (common practice, no source). */
  readonly wantsSoftTopUps: boolean;
}

const dayMs = 86_400_000;
/** How far back top-ups and changes speak for today, and how many days are needed to speak at all. */
const mostDays = 60;
const leastDays = 21;
const worthwhile = 1.1;

/**
 * Creep of minerals by the top-ups and changes of the last 60 days: evaporation takes water and leaves minerals, tap water brings more.
 *
 *   factor = 1 + e/f
 *
 * @param netLitres  water in the tub, L
 * @param since      when the tub's log begins
 * @returns null under 21 days of log
 * Error: that of a log with gaps; e and f count as even over the days. Source: mass balance of a steady state, just before a change.
 */
export function creepOf(
  netLitres: number,
  log: {
    readonly changes: readonly Pick<Change, 'at' | 'litres'>[];
    readonly topUps: readonly Pick<TopUp, 'at' | 'litres' | 'water'>[];
  },
  since: Instant,
  now: Instant,
): Creep | null {
  const known = (Date.parse(now) - Date.parse(since)) / dayMs;
  const days = Math.min(mostDays, known);
  if (!(days >= leastDays)) return null;
  const from = plusMs(now, -days * dayMs);
  const perWeek = (logged: readonly { readonly at: Instant; readonly litres: number }[]): number =>
    logged.filter(({ at }) => at > from && at <= now).reduce((sum, { litres }) => sum + litres, 0) /
    netLitres /
    (days / 7);
  const tapTopUpPerWeek = perWeek(log.topUps.filter(({ water }) => water === 'tap'));
  const changedPerWeek = perWeek(log.changes);
  const factor = creepFactor(tapTopUpPerWeek, changedPerWeek);
  return {
    days: Math.floor(days),
    evaporatedPerWeek: perWeek(log.topUps),
    tapTopUpPerWeek,
    changedPerWeek,
    factor,
    wantsSoftTopUps: factor === null || factor >= worthwhile,
  };
}

/**
 * 1 + e/f: how many times the source's minerals a tub settles at; 1 without tap water in top-ups, null when nothing is changed.
 * @param tapTopUpShare  e, share of the volume evaporated and replaced by tap water in an interval, 0 to 1
 * @param changedShare   f, share changed in the same interval, 0 to 1
 */
export function creepFactor(tapTopUpShare: number, changedShare: number): number | null {
  if (tapTopUpShare === 0) return 1;
  return changedShare > 0 ? 1 + tapTopUpShare / changedShare : null;
}

/** Where TDS, GH or KH settles just before a change, in the unit of `source`; null: nowhere. */
export const creepPlateau = (source: number, { factor }: Pick<Creep, 'factor'>): number | null =>
  factor === null ? null : source * factor;
