/** The service counts its ids from the first instant of 2015 (UTC), in milliseconds. */
const SERVICE_EPOCH_MS = 1_420_070_400_000n;

/** Ids that never change, so that settings and tests can name them. */
export const FIXED_IDS = {
  guild: '1100000000000000001',
  channel: '1100000000000000002',
  otherChannel: '1100000000000000003',
  application: '1100000000000000004',
  botRole: '1100000000000000005',
  managerRole: '1100000000000000006',
  owner: '1100000000000000011',
  partner: '1100000000000000012',
  stranger: '1100000000000000013',
} as const;

/**
 * Makes ids in the service's form: milliseconds since its epoch in the upper bits, a running number below.
 * Ids from one source rise strictly, also within a millisecond and when the clock stands still or steps back.
 */
export class IdSource {
  #last = 0n;
  readonly #nowMs: () => number;

  constructor(nowMs: () => number) {
    this.#nowMs = nowMs;
  }

  next(): string {
    const fresh = (BigInt(Math.floor(this.#nowMs())) - SERVICE_EPOCH_MS) << 22n;
    this.#last = fresh > this.#last ? fresh : this.#last + 1n;
    return this.#last.toString();
  }

  /** Continues above an id that was given out in an earlier run. */
  continueAbove(id: string): void {
    const used = BigInt(id);
    if (used > this.#last) this.#last = used;
  }
}

/** True when `a` was made after `b`. */
export function isNewer(a: string, b: string): boolean {
  return BigInt(a) > BigInt(b);
}
