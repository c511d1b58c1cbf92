import type { CarriedYoung, Instant } from '../domain/index.ts';
import { listWords, momentWords, type Voice } from './voice.ts';

export interface CarriedGoods {
  readonly crossing: readonly CarriedYoung[];
  readonly notHeld: readonly { readonly goods: string; readonly held: number; readonly until: Instant }[];
}

/** "moss may carry young jade; this buyer has snow", and what was not held long enough yet. */
export const carriedLines = (voice: Voice, { crossing, notHeld }: CarriedGoods): string[] => [
  ...crossing.map(
    ({ goods, line, others }) =>
      `Mind: ${goods} may carry young ${line}; this buyer has ${listWords(others.slice(0, 3))}`,
  ),
  ...notHeld.map(
    ({ goods, held, until }) =>
      `${goods}: ${held === 0 ? 'none' : `only ${held}`} held 48 h by then, all from ${momentWords(voice, until)}`,
  ),
];
