import type { Freshness } from './freshness.ts';

/** The answer to a question that goes through a whole history, asked anew only once anything was written since. */
export function untilWritten<T>(fresh: Freshness, ask: () => T): () => T {
  let kept: { readonly of: string; readonly answer: T } | undefined;
  return () => {
    const of = fresh.ofAll();
    if (kept?.of !== of) kept = { of, answer: ask() };
    return kept.answer;
  };
}
