import { mostPasses, type Refusal } from '../domain/index.ts';
import type { Card, Offer } from './card.ts';

type CountRefusal = Extract<Refusal, { kind: 'passes-tell-nothing' | 'pass-left-out' }>;
type Untold = Extract<Refusal, { kind: 'passes-tell-nothing' }>;

/** The words of what removal passes cannot tell. */
export function countRefusal(refusal: CountRefusal): Card {
  if (refusal.kind === 'pass-left-out') {
    return {
      title: 'Not logged: the third pass is missing',
      why: ['A fourth was given'],
      next: 'Give the third too, 0 if it caught nothing',
    };
  }
  const { tub, catches, fault } = refusal;
  const netted = `${tub}: ${catches.join(', ')}`;
  return {
    ...wordsOf(netted, fault),
    next: catches.length < mostPasses ? 'Net once more with the same effort' : 'Strip the tub out and log a full count',
    offers: [caughtOffer(tub, fault.caught)],
  };
}

function wordsOf(netted: string, fault: Untold['fault']): Pick<Card, 'title' | 'why'> {
  switch (fault.kind) {
    case 'nothing-caught':
      return {
        title: 'Not logged: nothing was caught',
        why: [netted, 'Empty nets do not tell an empty tub from a wary one'],
      };
    case 'all-in-the-last':
      return {
        title: 'Not logged: all came in the last pass',
        why: [netted, 'The passes before it had no chance at them'],
      };
    case 'no-decline':
      return {
        title: 'Not logged: the catches do not go down',
        why: [netted, `At least ${fault.caught} are there; only a decline tells how many more`],
      };
    case 'weak-decline':
      return {
        title: 'Not logged: the decline is too weak',
        why: [netted, `${fault.caught} came out; ${fault.low} to ${fault.high} may have been there`],
      };
  }
}

/** What came out is there for certain: as a count it promises nothing that is not. */
const caughtOffer = (tub: string, caught: number): Offer => ({
  label: caught === 0 ? 'Log 0' : `Log the ${caught} caught`,
  path: 'count log',
  patch: { tub, saleable: caught },
  tone: 'plain',
});
