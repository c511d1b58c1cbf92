import type { World } from '../world/world.ts';

/** Counts what happens, so that somebody can wait for the next thing without missing one. */
export class ChangeCount {
  #count = 0;
  readonly #waiting = new Set<() => void>();
  readonly #stopListening: () => void;

  constructor(world: World) {
    this.#stopListening = world.bus.listen(() => {
      this.#count += 1;
      for (const wake of [...this.#waiting]) wake();
    });
  }

  /** The count as soon as it is above `seen`, or after `limitMs` of the machine's time as it is then. */
  async above(seen: number, limitMs: number): Promise<number> {
    if (this.#count <= seen && limitMs > 0)
      await new Promise<void>((resolve) => {
        const wake = () => {
          clearTimeout(timer);
          this.#waiting.delete(wake);
          resolve();
        };
        const timer = setTimeout(wake, limitMs);
        timer.unref();
        this.#waiting.add(wake);
      });
    return this.#count;
  }

  close(): void {
    this.#stopListening();
    for (const wake of [...this.#waiting]) wake();
  }
}
