import { addDays, type LocalDay } from '../day.ts';

/** Days on end, both ends included. */
export interface Stretch {
  readonly from: LocalDay;
  readonly to: LocalDay;
}

/** The stretch that runs on a day, or else the next one, joined with all that follow it without a gap; null: all are over. */
export function runOn(stretches: readonly Stretch[], day: LocalDay): Stretch | null {
  const left = stretches.filter(({ from, to }) => to >= day && to >= from).sort((a, b) => a.from.localeCompare(b.from));
  return left.reduce<Stretch | null>((run, one) => {
    if (run === null) return one;
    if (one.from > addDays(run.to, 1)) return run;
    return one.to > run.to ? { from: run.from, to: one.to } : run;
  }, null);
}
