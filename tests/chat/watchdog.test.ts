import { expect, it } from 'vitest';
import { watch } from '../../src/chat/watchdog.ts';

/** A ticker that is moved by hand, and how often it was told to give up. */
function bench(states: { isReady: boolean }) {
  let nowMs = 0;
  let look: (() => void) | undefined;
  let given = 0;
  const end = watch(
    () => states.isReady,
    () => {
      given += 1;
    },
    {
      nowMs: () => nowMs,
      every: (_, act) => {
        look = act;
        return () => {
          look = undefined;
        };
      },
    },
  );
  const pass = (seconds: number): void => {
    for (let second = 0; second < seconds; second += 15) {
      nowMs += 15_000;
      look?.();
    }
  };
  return { pass, end, given: () => given };
}

it('gives up once after five minutes without a connection', () => {
  const states = { isReady: true };
  const { pass, given } = bench(states);
  pass(3600);
  states.isReady = false;
  pass(285);
  expect(given()).toBe(0);
  pass(15);
  expect(given()).toBe(1);
  pass(3600);
  expect(given()).toBe(1);
});

it('starts counting anew after each connection, and not at all once ended', () => {
  const states = { isReady: false };
  const { pass, end, given } = bench(states);
  pass(285);
  states.isReady = true;
  pass(15);
  states.isReady = false;
  pass(285);
  expect(given()).toBe(0);
  end();
  pass(3600);
  expect(given()).toBe(0);
});
