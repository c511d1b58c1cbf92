/** How long the connection may be gone before the process gives up, so that its supervisor starts it anew with a growing pause. */
const PATIENCE_MS = 5 * 60_000;

const LOOK_EVERY_MS = 15_000;

/** Machine time and its alarm; tests bring their own. */
export interface Ticker {
  nowMs(): number;
  /** Calls `look` again and again until the returned function is called. */
  every(ms: number, look: () => void): () => void;
}

export const machineTicker: Ticker = {
  nowMs: () => performance.now(),
  every(ms, look) {
    const timer = setInterval(look, ms).unref();
    return () => clearInterval(timer);
  },
};

/** Looks whether the connection is there, and calls `giveUp` once when it was not for five minutes on end. Gives back how to end it. */
export function watch(isReady: () => boolean, giveUp: () => void, ticker: Ticker = machineTicker): () => void {
  let lastReadyMs = ticker.nowMs();
  const end = ticker.every(LOOK_EVERY_MS, () => {
    if (isReady()) lastReadyMs = ticker.nowMs();
    else if (ticker.nowMs() - lastReadyMs >= PATIENCE_MS) {
      end();
      giveUp();
    }
  });
  return end;
}
