import {
  type Business,
  dayOf,
  type Line,
  type LineStock,
  type LocalDay,
  type Logged,
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

/** A tub's saleable animals now, and whether it is off sale today or on a day ahead. */
export function tubStock(desk: Desk, business: Business, tub: Tub, on?: LocalDay): TubStock {
  const { animals, promises } = desk.store;
  const count = animals.latestCount(tub.id);
  const hold = animals.latestHold(tub.id);
  const day = on ?? dayOf(desk.now(), business.zone);
  const offSale =
    hold !== undefined && (hold.until === null || hold.until >= day)
      ? { reason: hold.reason, until: hold.until }
      : null;
  if (count === undefined) return { tub, counted: null, saleable: null, offSale };
  const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0);
  // Words like "yesterday" give a count and a loss the same moment: then what was logged later came later.
  const isSince = ({ at, entryId }: Logged): boolean => at > count.at || entryId > count.entryId;
  const moves = animals.moves(tub.id, count.at).filter((move) => isSince(move) && move.stage === 'saleable');
  const saleable = saleableNow(count.saleable, {
    sold: promises.sentSince(tub.id, count),
    lost: sum(
      animals
        .losses(tub.id, count.at)
        .filter(isSince)
        .map(({ number }) => number),
    ),
    movedIn: sum(moves.filter(({ toTubId }) => toTubId === tub.id).map(({ number }) => number)),
    movedOut: sum(moves.filter(({ fromTubId }) => fromTubId === tub.id).map(({ number }) => number)),
  });
  return { tub, counted: { saleable: count.saleable, at: count.at, by: count.by }, saleable, offSale };
}

/** A line's stock; a sale that is being edited leaves its own promise out. */
export function stockOf(desk: Desk, line: Line, exceptSale = 0, on?: LocalDay): LineStock {
  const business = businessOf(desk);
  const tubs = tubsInUse(desk).filter(({ lineId }) => lineId === line.id);
  const { number, extras } = desk.store.promises.ofLine(line.id, desk.now(), exceptSale);
  return lineStock(
    line,
    tubs.map((tub) => tubStock(desk, business, tub, on)),
    number,
    extras,
  );
}

/** Stock of one line, or of all; on a day ahead by today's animals with the holds that then still run. */
export function stock(desk: Desk, typedLine?: string, on?: LocalDay): Result<readonly LineStock[], Refusal> {
  if (typedLine === undefined) return ok(desk.store.tubs.lines().map((line) => stockOf(desk, line, 0, on)));
  const line = findLine(desk, typedLine);
  return line.ok ? ok([stockOf(desk, line.value, 0, on)]) : line;
}

/** Animals of a line that may be promised now; negative when more is promised than can be given. 0 for a line that was undone. */
export function freeOf(desk: Desk, lineId: number): number {
  const line = desk.store.tubs.lines().find(({ id }) => id === lineId);
  return line === undefined ? 0 : stockOf(desk, line).free;
}
