import { type ColonyEvent, dayOf, type Instant, inOrder, type LocalDay } from '../../domain/index.ts';
import type { Desk } from '../desk.ts';

const beforeAll = '' as Instant;

/** All that happened to the animals of a tub, in order. */
export function colonyEvents({ store: { animals, promises } }: Desk, tubId: number, zone: string): ColonyEvent[] {
  const dated = ({ at, entryId }: { readonly at: Instant; readonly entryId: number }) => ({
    at,
    entryId,
    day: dayOf(at, zone),
  });
  return inOrder([
    ...animals.counts(tubId, beforeAll).map((count): ColonyEvent => {
      const { method, saleable, juveniles, berried, passes } = count;
      return { of: 'count', ...dated(count), method, saleable, juveniles, berried, passes };
    }),
    ...promises.sentSince(tubId, beforeAll).map((sent): ColonyEvent => {
      return { of: 'sent', ...dated(sent), number: sent.number };
    }),
    ...animals.losses(tubId, beforeAll).map((loss): ColonyEvent => {
      return { of: 'loss', ...dated(loss), number: loss.number };
    }),
    ...animals.moves(tubId, beforeAll).map((move): ColonyEvent => {
      const of = move.toTubId === tubId ? 'moveIn' : 'moveOut';
      return { of, ...dated(move), number: move.number, stage: move.stage };
    }),
  ]);
}

/** A text of the events up to each day on which one happened: the same only where they are the same. */
export class EventGround {
  readonly #days: LocalDay[] = [];
  readonly #texts: string[] = [];

  constructor(events: readonly ColonyEvent[]) {
    let hash = 0x811c9dc5;
    for (const event of events) {
      for (const character of JSON.stringify(event))
        hash = Math.imul(hash ^ (character.codePointAt(0) ?? 0), 0x01000193);
      if (this.#days.at(-1) === event.day) this.#texts.pop();
      else this.#days.push(event.day);
      this.#texts.push((hash >>> 0).toString(36));
    }
  }

  /** Of the events up to and on a day. */
  on(day: LocalDay): string {
    const after = this.#days.findIndex((one) => one > day);
    return this.#texts[(after < 0 ? this.#days.length : after) - 1] ?? '';
  }
}
