import type { Json } from '../wire.ts';

/** What a test may have go wrong on the next requests to a route. */
export type Fault = {
  method: string;
  /** The route's template, for example `/channels/{channel}/messages`. */
  route: string;
  /** How many requests it befalls. */
  times: number;
} & (
  | { kind: 'loseAnswer'; how: 'reset' | 'close' }
  | { kind: 'status'; status: number; body?: Json }
  | { kind: 'hold'; when: 'before' | 'after' }
);

export interface SetFault {
  id: number;
  fault: Fault;
  left: number;
  release: () => void;
  released: Promise<void>;
}

/** The switches that are set, used up request by request in the order in which they were set. */
export class Faults {
  #set: SetFault[] = [];
  #count = 0;

  add(fault: Fault): number {
    this.#count += 1;
    let release = () => {};
    const released = new Promise<void>((resolve) => {
      release = resolve;
    });
    this.#set.push({ id: this.#count, fault, left: fault.times, release, released });
    return this.#count;
  }

  /** The switch that befalls this request, if one is set; it is used up by one. */
  take(method: string, route: string): SetFault | undefined {
    const hit = this.#set.find(
      (entry) => entry.left > 0 && entry.fault.method === method && entry.fault.route === route,
    );
    if (hit !== undefined) hit.left -= 1;
    return hit;
  }

  /** Lets held requests go on and forgets the switch; without an id, all of them. */
  clear(id?: number): void {
    for (const entry of this.#set) if (id === undefined || entry.id === id) entry.release();
    this.#set = this.#set.filter((entry) => id !== undefined && entry.id !== id);
  }
}
