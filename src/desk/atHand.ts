import { type Desk, todayOf } from './desk.ts';
import { rotaToday } from './rota/rota.ts';
import { salesOn } from './sales/list.ts';

/** What is left to do today, in numbers. */
export interface AtHand {
  readonly changesDue: number;
  readonly choresDue: number;
  /** Paid parcels planned for today and not sent. */
  readonly parcels: number;
}

export function atHand(desk: Desk): AtHand {
  const open = rotaToday(desk).filter(({ done }) => done === null);
  const changesDue = open.filter(({ due }) => due.chore.act === 'change').length;
  return { changesDue, choresDue: open.length - changesDue, parcels: salesOn(desk, todayOf(desk)).paid.length };
}
