import type { Partner } from '../business.ts';
import type { LocalDay } from '../day.ts';
import { folded } from '../nearest.ts';

/** Part of the chore minutes of each partner, 0 to 1, together 1: as set; those without a set share have equal parts of what the others leave. */
export function sharesOf(partners: readonly Pick<Partner, 'userId' | 'sharePercent'>[]): ReadonlyMap<string, number> {
  const set = partners.reduce((sum, { sharePercent }) => sum + (sharePercent ?? 0), 0);
  const unset = partners.filter(({ sharePercent }) => sharePercent === null).length;
  const each = unset === 0 ? 0 : Math.max(0, 100 - set) / unset;
  const total = set + each * unset;
  return new Map(
    partners.map(({ userId, sharePercent }) => [
      userId,
      total === 0 ? 1 / partners.length : (sharePercent ?? each) / total,
    ]),
  );
}

/** Whether a partner is away on a day, both ends included; a missing end is open. */
export const isAway = ({ awayFrom, awayTo }: Pick<Partner, 'awayFrom' | 'awayTo'>, day: LocalDay): boolean =>
  (awayFrom !== null || awayTo !== null) &&
  (awayFrom === null || day >= awayFrom) &&
  (awayTo === null || day <= awayTo);

/** Whether a partner never does a chore of this name. */
export const neverDoes = ({ never }: Pick<Partner, 'never'>, choreName: string): boolean =>
  never.some((name) => folded(name) === folded(choreName));
