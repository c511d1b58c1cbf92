import {
  type Business,
  countedStock,
  dayOf,
  type Instant,
  type Line,
  type LineStock,
  type LocalDay,
  lineStock,
  offSaleOn,
  ok,
  type Refusal,
  type Result,
  type StockSteps,
  type Tub,
  type TubStock,
} from '../../domain/index.ts';
import { colonyNow, membersOf } from '../colony/colony.ts';
import { businessOf, type Desk } from '../desk.ts';
import { findLine, tubsInUse } from '../find.ts';
import { stockAhead } from './stockAhead.ts';

/** The saleable animals of a tub that came and left since an instant. */
export function stepsSince({ store: { animals, promises } }: Desk, tubId: number, since: Instant): StockSteps {
  const moves = animals.moves(tubId, since).filter(({ stage }) => stage === 'saleable');
  return {
    came: moves.filter(({ toTubId }) => toTubId === tubId),
    left: [
      ...promises.sentSince(tubId, since),
      ...animals.losses(tubId, since),
      ...moves.filter(({ fromTubId }) => fromTubId === tubId),
    ],
  };
}

/** A tub's saleable animals now, and whether it is off sale today or on a day ahead. */
export function tubStock(desk: Desk, business: Business, tub: Tub, on?: LocalDay): TubStock {
  const count = desk.store.animals.latestCount(tub.id);
  const offSale = offSaleOn(desk.store.animals.latestHold(tub.id), on ?? dayOf(desk.now(), business.zone));
  const members = count === undefined ? null : membersOf(colonyNow(desk, business, tub));
  if (count === undefined || members === null) {
    return { tub, counted: null, saleable: null, range: null, members: null, offSale };
  }
  const { saleable, method, at, by } = count;
  return countedStock(tub, { saleable, method, at, by }, members, offSale);
}

/** A line's stock; a sale that is being edited leaves its own promise out. */
export function stockOf(desk: Desk, line: Line, exceptSale = 0): LineStock {
  const business = businessOf(desk);
  const tubs = tubsInUse(desk).filter(({ lineId }) => lineId === line.id);
  const { number, extras } = desk.store.promises.ofLine(line.id, desk.now(), exceptSale);
  return lineStock(
    line,
    tubs.map((tub) => tubStock(desk, business, tub)),
    number,
    extras,
  );
}

/** Stock of one line, or of all; on a day ahead as the model foresees it if nothing more is sold, with the holds that then still run. */
export function stock(desk: Desk, typedLine?: string, on?: LocalDay): Result<readonly LineStock[], Refusal> {
  const of = (line: Line): LineStock => (on === undefined ? stockOf(desk, line) : stockAhead(desk, line, on));
  if (typedLine === undefined) return ok(desk.store.tubs.lines().map(of));
  const line = findLine(desk, typedLine);
  return line.ok ? ok([of(line.value)]) : line;
}

/** Animals of a line that may be promised now; negative when more is promised than can be given. 0 for a line that was undone. */
export function freeOf(desk: Desk, lineId: number): number {
  const line = desk.store.tubs.lines().find(({ id }) => id === lineId);
  return line === undefined ? 0 : stockOf(desk, line).free;
}
