import { dayOf } from '../day.ts';
import type { Cost } from './cost.ts';
import type { Movement } from './movement.ts';

/** A cost as a movement: with a tub it is its line's, else shared. */
export const costMovement = ({ amountMinor, at, kind, tub }: Cost, zone: string): Movement => ({
  what: 'cost',
  minor: amountMinor,
  day: dayOf(at, zone),
  pot: tub === null ? { of: 'shared' } : { of: 'line', id: tub.lineId, name: tub.lineName },
  saleId: null,
  costKind: kind,
});
