import { waterIn } from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';
import { changePlanOf, rackOf } from './changePlan.ts';
import { inferredOf } from './inferred.ts';

/** Infers the nitrate of every tub and plans its change, a slice at a time, so that no first answer has to wait for all of them. */
export function* waterSlices(desk: Desk): Generator<void> {
  for (const tub of tubsInUse(desk)) {
    const business = businessOf(desk);
    inferredOf(desk, business, waterIn(business).values.nitrateMgL, tub);
    yield;
  }
  for (const tub of tubsInUse(desk)) {
    const rack = rackOf(desk);
    changePlanOf(desk, tub, rack);
    rack.nitrate.isOdd(tub);
    yield;
  }
}
