import { businessOf, type Desk, todayOf } from './desk.ts';
import { changePlans } from './water.ts';

/** What today brings, in numbers. */
export interface AtHand {
  readonly changesDue: number;
  readonly choresDue: number;
  readonly parcels: number;
}

export function atHand(desk: Desk): AtHand {
  const today = todayOf(desk, businessOf(desk));
  return { changesDue: changePlans(desk).filter(({ plan }) => plan.dueOn <= today).length, choresDue: 0, parcels: 0 };
}
