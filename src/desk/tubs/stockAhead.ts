import {
  type Business,
  colonyAhead,
  countedStock,
  dayOf,
  type Line,
  type LineStock,
  type LocalDay,
  lineStock,
  offSaleOn,
  type Tub,
  type TubStock,
} from '../../domain/index.ts';
import { colonyNow } from '../colony/colony.ts';
import { businessOf, type Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';

/** A line's stock on a day ahead: what the model foresees of its tubs, what is promised now, and the holds that then still run. */
export function stockAhead(desk: Desk, line: Line, on: LocalDay): LineStock {
  const business = businessOf(desk);
  const tubs = tubsInUse(desk).filter(({ lineId }) => lineId === line.id);
  const { number, extras } = desk.store.promises.ofLine(line.id, desk.now(), 0);
  return lineStock(
    line,
    tubs.map((tub) => tubAhead(desk, business, tub, on)),
    number,
    extras,
  );
}

function tubAhead(desk: Desk, business: Business, tub: Tub, on: LocalDay): TubStock {
  const count = desk.store.animals.latestCount(tub.id);
  const offSale = offSaleOn(desk.store.animals.latestHold(tub.id), on);
  const { tub: model, colony } = colonyNow(desk, business, tub);
  if (count === undefined || colony === null) {
    return { tub, counted: null, saleable: null, range: null, members: null, offSale };
  }
  const { saleable, method, at, by } = count;
  const members = colonyAhead({ tub: model, colony }, dayOf(desk.now(), business.zone), on);
  return countedStock(tub, { saleable, method, at, by }, members, offSale);
}
