import type { Chain } from './chain.ts';
import { commonStep } from './commonStep.ts';
import { forcedMinutes, runAt } from './forced.ts';

/**
 * Minutes below which the heaviest day cannot be, however the doings are laid: the most, over all runs of days, of what must be done
 * within the run divided by its days, rounded up to the minutes' common step.
 *
 * Proof: the heaviest day is at least the mean of any run, and a run holds at least what each chain cannot but do within it. (Hall's
 * condition of scheduling by intervals; a day's minutes are whole multiples of the step.)
 */
export function peakBound(chains: readonly Chain[], days: number): number {
  const forced = new Float64Array(days * days);
  for (const chain of chains)
    for (const [run, minutes] of forcedMinutes(chain, days).entries()) forced[run] = (forced[run] ?? 0) + minutes;
  let most = 0;
  for (let first = 0; first < days; first++) {
    for (let last = first; last < days; last++) {
      most = Math.max(most, (forced[runAt(first, last, days)] ?? 0) / (last - first + 1));
    }
  }
  const step = commonStep(chains.map(({ minutes }) => minutes));
  return step === null ? most : Math.ceil(most / step - 1e-9) * step;
}
