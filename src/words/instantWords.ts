import { type Instant, instantOf } from '../domain/index.ts';

/** The instant of a full ISO 8601 text with its offset ("2027-03-01t07:45z", "…+02:00"), in tidied letters; else undefined. */
export function readInstant(words: string): Instant | undefined {
  if (!/^\d{4}-\d{2}-\d{2}t\d{2}:\d{2}(?::\d{2}(?:\.\d{1,3})?)?(?:z|[+-]\d{2}:\d{2})$/.test(words)) return undefined;
  const at = new Date(words.toUpperCase());
  return Number.isNaN(at.getTime()) ? undefined : instantOf(at);
}
