import {
  type AmountName,
  type By,
  fail,
  firstImpossible,
  type Instant,
  mostPasses,
  nextPass,
  ok,
  type PassesLogged,
  passesEstimate,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import { type Desk, log } from '../desk.ts';
import { findTub } from '../find.ts';
import { whenOf } from '../when.ts';
import { believedAfter, believedBefore, tooManyFor } from './animals.ts';

export interface PassesInput {
  readonly tub: string;
  readonly first: number;
  readonly second: number;
  readonly third?: number | undefined;
  readonly fourth?: number | undefined;
  readonly at?: Instant | undefined;
  readonly sure?: boolean | undefined;
}

/** Counts a tub by what each of two to four removal passes of the same effort caught; the estimate is booked as its saleable animals. */
export function logPasses(desk: Desk, by: By, input: PassesInput): Result<PassesLogged, Refusal> {
  const found = findTub(desk, input.tub);
  if (!found.ok) return found;
  const tub = found.value;
  const typed = [input.first, input.second, input.third, input.fourth];
  const refused = firstImpossible(typed.map((caught, index) => [`pass ${index + 1}` as AmountName, caught]));
  if (refused !== null) return fail(refused);
  if (input.third === undefined && input.fourth !== undefined) return fail({ kind: 'pass-left-out' });
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;

  const catches = typed.filter((caught) => caught !== undefined);
  const estimated = passesEstimate(catches);
  if (!estimated.ok) return fail({ kind: 'passes-tell-nothing', tub: tub.name, catches, fault: estimated.fault });
  const estimate = estimated.value;
  const saleable = Math.round(estimate.number);
  const tooMany = tooManyFor(tub, saleable);
  if (input.sure !== true && tooMany !== null) return fail(tooMany);

  const books = believedBefore(desk, tub, at.value);
  const summary = `${tub.name} counted ${saleable} saleable (passes ${catches.join(', ')})`;
  const entryId = log(desk, by, 'count', summary, (entry) => {
    desk.store.animals.addPassesCount(entry, { tubId: tub.id, at: at.value, saleable, passes: catches });
  });
  return ok({
    ...{ tub, saleable, juveniles: null, berried: null, method: 'passes', at: at.value, dish: null, entryId },
    ...{ ...books, ...believedAfter(desk, tub, entryId) },
    ...{ catches, estimate, next: catches.length < mostPasses ? nextPass(catches, estimate) : null },
  });
}
