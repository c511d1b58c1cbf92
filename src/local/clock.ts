/** Time as the protocol rules see it: the 3-second acknowledgement, the 15-minute token, the nonce window. */
export interface ProtocolClock {
  nowMs(): number;
  /** Calls `act` once, `delayMs` from now, unless the returned function was called before. */
  after(delayMs: number, act: () => void): () => void;
}

export const machineClock: ProtocolClock = {
  nowMs: () => Date.now(),
  after(delayMs, act) {
    const timer = setTimeout(act, delayMs);
    timer.unref();
    return () => clearTimeout(timer);
  },
};

/** A clock that moves only when told to, so that tests reach a deadline without waiting for it. */
export class ManualClock implements ProtocolClock {
  #nowMs: number;
  #waiting: { atMs: number; act: () => void }[] = [];

  constructor(startMs: number) {
    this.#nowMs = startMs;
  }

  nowMs(): number {
    return this.#nowMs;
  }

  after(delayMs: number, act: () => void): () => void {
    const entry = { atMs: this.#nowMs + delayMs, act };
    this.#waiting.push(entry);
    return () => {
      this.#waiting = this.#waiting.filter((other) => other !== entry);
    };
  }

  /** Moves on and calls what falls due, in order of its time. */
  advance(byMs: number): void {
    this.#nowMs += byMs;
    const due = this.#waiting.filter((entry) => entry.atMs <= this.#nowMs).sort((a, b) => a.atMs - b.atMs);
    this.#waiting = this.#waiting.filter((entry) => entry.atMs > this.#nowMs);
    for (const entry of due) entry.act();
  }
}
