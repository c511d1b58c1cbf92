import { addDays, type LocalDay } from '../../day.ts';
import { dayNumber } from '../temperature/dayNumber.ts';
import { addGrown, addJuveniles, takeJuveniles } from './animals.ts';
import { purposes, streamOf } from './chance.ts';
import { type Colony, type Draft, draftFrom, draftOf, noMisses, widthOf } from './colony.ts';
import { drift } from './drift.ts';
import { type ColonyEvent, inOrder } from './event.ts';
import { memberCount } from './layout.ts';
import { observe } from './observe.ts';
import { supposedColony } from './past.ts';
import { ratesOf } from './rates.ts';
import { stepDay } from './stepDay.ts';
import type { Surprise } from './surprise.ts';
import { takeSaleable } from './take.ts';
import { traits } from './traits.ts';
import type { ColonyTub } from './tub.ts';

/** Of the saleable animals, what moves them in a day beside the model, standard deviation (assumption). */
const wobblePerDay = 0.004;
/** Weight, in counts, of that against a tub's own misses, and days after which 1/e of a miss is forgotten. */
const [modelTrust, missMemoryDays] = [6, 400];
/** Days over which losses that were logged stand for deaths of the model. */
const lossDays = 20;
/** Every so many days a trait drifts. */
const driftEvery = 2;

const missesKept = Math.exp(-1 / missMemoryDays);

/** Takes a draft on to the end of a day without facts. */
function advanceDraft(draft: Draft, tub: ColonyTub, to: LocalDay): void {
  while (draft.day < to) {
    const day = addDays(draft.day, 1);
    const number = dayNumber(day);
    const loggedDeaths = draft.loggedDeaths / lossDays;
    stepDay(draft.numbers, memberCount, {
      rates: ratesOf(tub.temps(day), tub.saleableMm),
      netLitres: tub.netLitres,
      days: 1,
      stream: streamOf(tub.id, number, purposes.daily),
      wobble: wobblePerDay * widthOf(draft.model, modelTrust, 0.5, 2.5),
      loggedDeaths,
    });
    if (number % driftEvery === 0) {
      const turn = Math.abs(number / driftEvery) % traits.length;
      drift(draft.numbers, memberCount, turn, driftEvery * traits.length, {
        tubId: tub.id,
        day: number,
        purpose: purposes.drift,
      });
    }
    draft.loggedDeaths -= loggedDeaths;
    draft.model = { squares: draft.model.squares * missesKept, weight: draft.model.weight * missesKept };
    draft.day = day;
  }
}

function applyTo(draft: Draft, event: ColonyEvent): Surprise[] {
  if (event.of === 'count') return observe(draft, event);
  const { number, entryId } = event;
  if (!('stage' in event)) return surprisesOf(takeSaleable(draft, number, event.of, entryId));
  const { of, stage } = event;
  if (of === 'moveIn') (stage === 'saleable' ? addGrown : addJuveniles)(draft, number, entryId);
  else if (stage === 'saleable') return surprisesOf(takeSaleable(draft, number, of, entryId));
  else takeJuveniles(draft, number);
  return [];
}

const surprisesOf = (surprise: Surprise | null): Surprise[] => (surprise === null ? [] : [surprise]);

/** A tub at its first count: what it may hold by its season and water (`supposedColony`), and then the count. */
function begunBy(tub: ColonyTub, count: ColonyEvent & { of: 'count' }): Draft {
  const draft = draftFrom(tub.id, count.day, supposedColony(tub, count.day));
  observe(draft, count);
  // How far the count was off a supposed colony tells nothing of the tub.
  return { ...draft, model: noMisses, dish: noMisses, glance: noMisses };
}

/** A colony on a later day without further facts; the same where `to` is not later. */
export function advanced(colony: Colony, tub: ColonyTub, to: LocalDay): Colony {
  const draft = draftOf(colony);
  advanceDraft(draft, tub, to);
  return draft;
}

/** What a replay found. */
export interface Replayed {
  /** Null: not counted by that day. */
  readonly colony: Colony | null;
  /** What was not expected, of the facts that were gone through. */
  readonly surprises: readonly Surprise[];
  /** The colony at the end of days that are worth keeping (`isKept`), in order, the last day included. */
  readonly snapshots: readonly Colony[];
}

/**
 * What is believed of a tub at the end of a day by its facts. From a snapshot it is bit for bit what it is from the beginning, if the facts up to
 * the snapshot's day, the tub and its temperatures up to there are the same.
 *
 * @param events facts of the tub, in any order; those after `to` are passed over, and those before the first count: a tub has no state till then
 * @param from   a snapshot of a day before the first fact that is new or void; facts up to its day are passed over. Null: from the beginning
 * @param keeps  whether the end of a day is worth a snapshot
 */
export function replay(
  tub: ColonyTub,
  events: readonly ColonyEvent[],
  from: Colony | null,
  to: LocalDay,
  keeps: (day: LocalDay) => boolean = () => false,
): Replayed {
  const surprises: Surprise[] = [];
  const snapshots: Colony[] = [];
  let draft = from === null ? null : draftOf(from);
  const goTo = (now: Draft, day: LocalDay): void => {
    while (now.day < day) {
      if (keeps(now.day) && now.day !== from?.day) snapshots.push(draftOf(now));
      advanceDraft(now, tub, addDays(now.day, 1));
    }
  };
  for (const event of inOrder(events)) {
    if (event.day > to || (from !== null && event.day <= from.day)) continue;
    if (draft === null) {
      if (event.of === 'count') draft = begunBy(tub, event);
      continue;
    }
    goTo(draft, event.day);
    surprises.push(...applyTo(draft, event));
  }
  if (draft === null) return { colony: null, surprises, snapshots };
  goTo(draft, to);
  return { colony: draft, surprises, snapshots: [...snapshots, draftOf(draft)] };
}

/** A colony after one more fact of its day or later, and what was not expected of it. */
export function observed(
  colony: Colony,
  tub: ColonyTub,
  event: ColonyEvent,
): { colony: Colony; surprises: Surprise[] } {
  const draft = draftOf(colony);
  advanceDraft(draft, tub, event.day);
  const surprises = applyTo(draft, event);
  return { colony: draft, surprises };
}
