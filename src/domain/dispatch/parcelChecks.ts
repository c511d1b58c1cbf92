import type { LocalDay } from '../day.ts';
import type { Catch } from '../sales/sale.ts';
import type { Logged } from '../tub.ts';

/**
 * What is checked while a parcel is packed, in the order of doing it. caught: netted by the list · counted: into bags · again: by the other
 * one, who says what they counted · stood: the bags stood ten minutes and none leaks · slip: in the box · label: on it. Common practice,
 * no source.
 */
export const checkSteps = ['caught', 'counted', 'again', 'stood', 'slip', 'label'] as const;
export type CheckStep = (typeof checkSteps)[number];

/** Steps that are about animals; a parcel of goods alone has none of them. */
const ofAnimals: readonly CheckStep[] = ['caught', 'counted', 'again', 'stood', 'slip'];

/** One thing checked about a parcel. */
export interface ParcelCheck extends Logged {
  readonly saleId: number;
  readonly step: CheckStep;
  /** Animals counted; null: the step counts none. */
  readonly number: number | null;
  /** The day that the parcel was packed for. */
  readonly forDay: LocalDay;
  /** Of a catch: from which tubs. */
  readonly catches: readonly Catch[];
}

/** A step with the check that holds for it, the last one made. */
export interface StepState {
  readonly step: CheckStep;
  /** Null: not done yet. */
  readonly done: ParcelCheck | null;
  /** The last count, where it was not the number to send. */
  readonly miscounted: ParcelCheck | null;
}

/** How far a parcel is packed. */
export interface PackingState {
  readonly steps: readonly StepState[];
  readonly done: number;
  /** Both counts are of one person: the second is no second pair of eyes. */
  readonly countedAlone: boolean;
}

/**
 * How far a parcel is packed, by what was checked; a count is done when it is the number to send.
 * @param toSend animals, extras included; 0: goods alone
 */
export function packingState(checks: readonly ParcelCheck[], toSend: number): PackingState {
  const steps = checkSteps
    .filter((step) => toSend > 0 || !ofAnimals.includes(step))
    .map((step): StepState => {
      const last = checks.filter((check) => check.step === step).at(-1) ?? null;
      const isWrong = last !== null && last.number !== null && last.number !== toSend;
      return { step, done: isWrong ? null : last, miscounted: isWrong ? last : null };
    });
  const byWhom = (step: CheckStep): string | null => steps.find((each) => each.step === step)?.done?.by ?? null;
  return {
    steps,
    done: steps.filter(({ done }) => done !== null).length,
    countedAlone: byWhom('counted') !== null && byWhom('counted') === byWhom('again'),
  };
}
