import type { CarriedYoung, Instant } from '../domain/index.ts';
import { listWords, momentWords, someWords, type Voice } from './voice.ts';

export interface CarriedGoods {
  readonly crossing: readonly CarriedYoung[];
  readonly notHeld: readonly { readonly goods: string; readonly held: number; readonly until: Instant }[];
}

/** The same for several parcels, each thing once with the parcels that it is about. */
export function carriedTogether(
  voice: Voice,
  parcels: readonly { readonly sale: { readonly id: number }; readonly carried: CarriedGoods }[],
): string[] {
  const about = new Map<string, Set<number>>();
  const note = (words: string, sale: number): void => {
    about.set(words, (about.get(words) ?? new Set()).add(sale));
  };
  for (const { sale, carried } of parcels) {
    for (const { goods, line } of carried.crossing) note(`Mind: ${goods} may carry young ${line}, not for`, sale.id);
    for (const { goods, until } of carried.notHeld) {
      note(`${goods} not held 48 h, all from ${momentWords(voice, until)}:`, sale.id);
    }
  }
  return [...about].map(([words, sales]) => `${words} ${someWords([...sales].map(String), 5)}`);
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
