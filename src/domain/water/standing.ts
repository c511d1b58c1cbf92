import type { Instant } from '../day.ts';
import type { Finding, WaterState } from './verdict.ts';

/** A value as it was judged when it was read. */
export interface JudgedValue {
  readonly finding: Finding;
  readonly at: Instant;
  /** Local days since. */
  readonly daysOld: number;
  /** Whether water was changed since. */
  readonly isChanged: boolean;
}

/** A value that was not fine when it was read, and was not read again since. */
export interface StandingValue extends JudgedValue {
  /** As it stands now: what harmed is watched once water was changed, until it is tested again. */
  readonly state: Exclude<WaterState, 'fine'>;
  /** Whether it was read so long ago that it asks for a test before all else. */
  readonly isOld: boolean;
}

/** A bad value read longer ago than this tells of then: what it calls for is a test, days (common practice, no source). */
export const oldAlarmDays = 14;
/** A temperature of longer ago says nothing: the weather has changed, days (common practice, no source). */
const temperatureDays = 14;

const rank: Record<WaterState, number> = { fine: 0, watch: 1, act: 2 };

/** Whether a value is one that kills by what a change takes out. */
export const isHarmful = ({ finding: { of } }: Pick<JudgedValue, 'finding'>): boolean =>
  of === 'ammonia' || of === 'nitrite';

/**
 * What of a tub's water is not fine, the worst first, by the newest reading of each value: a later reading of something else hides
 * nothing. Nitrate is left out, as its estimate tells how it stands.
 *
 * @param values the newest of each value
 */
export function standingValues(values: readonly JudgedValue[]): StandingValue[] {
  return values
    .flatMap((value): StandingValue[] => {
      const { finding, daysOld, isChanged } = value;
      if (finding.state === 'fine' || finding.of === 'nitrate') return [];
      if (finding.of === 'temperature' && daysOld > temperatureDays) return [];
      const state = isHarmful(value) && isChanged ? 'watch' : finding.state;
      return [{ ...value, state, isOld: daysOld > oldAlarmDays }];
    })
    .sort((one, other) => rank[other.state] - rank[one.state] || Number(isHarmful(other)) - Number(isHarmful(one)));
}

/** What harms now and asks for first aid: ammonia or nitrite, and no water changed since it was read. */
export const isAlarm = (value: StandingValue): boolean => isHarmful(value) && value.state === 'act';
