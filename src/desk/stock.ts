import {
  type Business,
  dayOf,
  type Line,
  type LineStock,
  lineStock,
  ok,
  type Refusal,
  type Result,
  saleableNow,
  type Tub,
  type TubStock,
} from '../domain/index.ts';
import { businessOf, type Desk } from './desk.ts';
import { findLine, tubsInUse } from './find.ts';

/** A tub's saleable animals now, and whether it is off sale. */
export function tubStock(desk: Desk, business: Business, tub: Tub): TubStock {
  const { animals, promises } = desk.store;
  const count = animals.latestCount(tub.id);
  const hold = animals.latestHold(tub.id);
  const today = dayOf(desk.now(), business.zone);
  const offSale =
    hold !== undefined && (hold.until === null || hold.until >= today)
      ? { reason: hold.reason, until: hold.until }
      : null;
  if (count === undefined) return { tub, counted: null, saleable: null, offSale };
  const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0);
  const moves = animals.moves(tub.id, count.at).filter(({ at, stage }) => at > count.at && stage === 'saleable');
  const saleable = saleableNow(count.saleable, {
    sold: promises.sentSince(tub.id, count.at),
    lost: sum(
      animals
        .losses(tub.id, count.at)
        .filter(({ at }) => at > count.at)
        .map(({ number }) => number),
    ),
    movedIn: sum(moves.filter(({ toTubId }) => toTubId === tub.id).map(({ number }) => number)),
    movedOut: sum(moves.filter(({ fromTubId }) => fromTubId === tub.id).map(({ number }) => number)),
  });
  return { tub, counted: { saleable: count.saleable, at: count.at, by: count.by }, saleable, offSale };
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

/** Stock of one line, or of all. */
export function stock(desk: Desk, typedLine?: string): Result<readonly LineStock[], Refusal> {
  if (typedLine === undefined) return ok(desk.store.tubs.lines().map((line) => stockOf(desk, line)));
  const line = findLine(desk, typedLine);
  return line.ok ? ok([stockOf(desk, line.value)]) : line;
}
