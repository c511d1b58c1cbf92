import type { Json } from '../wire.ts';

/** One request that the bot made, as tests and the page look at it. */
export interface LoggedRequest {
  atMs: number;
  method: string;
  path: string;
  route: string;
  status: number;
  /** The service's error code when the request was refused. */
  code?: number;
  body?: Json;
  files: string[];
  answer?: Json;
  /** True when a fault switch, not the service's rules, decided the answer. */
  isInjected: boolean;
}

const KEPT = 5000;

export class RequestLog {
  #entries: LoggedRequest[] = [];

  add(entry: LoggedRequest): void {
    this.#entries.push(entry);
    if (this.#entries.length > KEPT) this.#entries.splice(0, this.#entries.length - KEPT);
  }

  all(): LoggedRequest[] {
    return [...this.#entries];
  }

  /** Requests that the rules of the service turned down; answers made up by a fault switch are left out. */
  refusals(): LoggedRequest[] {
    return this.#entries.filter((entry) => entry.status >= 400 && !entry.isInjected);
  }

  clear(): void {
    this.#entries = [];
  }
}
