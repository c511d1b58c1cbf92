import type { Instant } from '../day.ts';
import { mostThatFits } from '../guarantee/extras.ts';
import type { Logged } from '../tub.ts';

/** A buyer who waits for animals of a line. */
export interface Waiting extends Logged {
  readonly lineId: number;
  readonly buyerId: number;
  readonly buyer: string;
  /** Animals still wanted. */
  readonly number: number;
}

/** A place on the list with what it could be given now. */
export interface WaitingOffer {
  readonly waiting: Waiting;
  /** Animals that could be sold to it; 0: none, or those before it take all. */
  readonly offer: number;
  /** That go with them. */
  readonly extras: number;
}

/** Nothing was changed: the buyer has a place on this line's list already. */
export interface WaitingFault {
  readonly kind: 'ask-waiting-already';
  readonly buyer: string;
  readonly line: string;
  /** Wanted now, and what was typed. */
  readonly number: number;
  readonly typed: number;
  readonly at: Instant;
  readonly by: string;
}

/**
 * What is free of a line, offered along its waiting list: who came first is offered all that they want as far as it goes, with the extras
 * that go with it, before anything is offered to the next.
 * @param queue in the order of entry
 * @param free animals free to promise; under 0 as none
 * @param extrasOf extras of a number of animals; never fewer for more animals
 */
export function offersFor(
  queue: readonly Waiting[],
  free: number,
  extrasOf: (number: number) => number,
): WaitingOffer[] {
  let left = Math.max(0, free);
  return queue.map((waiting) => {
    const { fits: offer, fitsExtras: extras } = mostThatFits(waiting.number, left, extrasOf);
    left -= offer + extras;
    return { waiting, offer, extras };
  });
}

/**
 * What is left of a buyer's wishes for a line once some are sold: the earlier places first.
 * @returns the places that change, each with the number still wanted
 */
export function wishesAfter(
  wishes: readonly Waiting[],
  sold: number,
): { readonly waiting: Waiting; readonly left: number }[] {
  let still = sold;
  return wishes.flatMap((waiting) => {
    const given = Math.min(still, waiting.number);
    still -= given;
    return given === 0 ? [] : [{ waiting, left: waiting.number - given }];
  });
}
