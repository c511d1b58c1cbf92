import type { Database } from 'better-sqlite3';
import type {
  CountMethod,
  Hold,
  Instant,
  LocalDay,
  Loss,
  Move,
  Stage,
  StockCount,
  TypedCountMethod,
} from '../domain/index.ts';
import type { Freshness } from './freshness.ts';
import { type LoggedRow, liveFacts, loggedOf } from './logged.ts';

interface CountRow extends LoggedRow {
  tub_id: number;
  saleable: number;
  juveniles: number | null;
  berried: number | null;
  method: CountMethod;
  first: number | null;
  second: number | null;
  third: number | null;
  fourth: number | null;
}

interface MoveRow extends LoggedRow {
  from_tub_id: number;
  to_tub_id: number;
  number: number;
  stage: Stage;
}

interface LossRow extends LoggedRow {
  tub_id: number;
  number: number;
  cause: string | null;
}

interface HoldRow extends LoggedRow {
  tub_id: number;
  reason: string;
  until_day: LocalDay | null;
  lifted: number;
}

const countOf = (row: CountRow): StockCount => ({
  ...loggedOf(row),
  tubId: row.tub_id,
  saleable: row.saleable,
  juveniles: row.juveniles,
  berried: row.berried,
  method: row.method,
  passes: passesOf(row),
});

function passesOf({ first, second, third, fourth }: CountRow): StockCount['passes'] {
  return first === null ? null : [first, second, third, fourth].filter((caught) => caught !== null);
}

const moveOf = (row: MoveRow): Move => ({
  ...loggedOf(row),
  fromTubId: row.from_tub_id,
  toTubId: row.to_tub_id,
  number: row.number,
  stage: row.stage,
});

const lossOf = (row: LossRow): Loss => ({ ...loggedOf(row), tubId: row.tub_id, number: row.number, cause: row.cause });

const liveCounts = liveFacts(
  '(SELECT c.*, p.first, p.second, p.third, p.fourth FROM stock_count c LEFT JOIN removal_passes p ON p.stock_count_id = c.id)',
);

/** Counts, moves, losses and holds. */
export function animalStore(db: Database, fresh: Freshness) {
  const addCount = db.prepare(`
    INSERT INTO stock_count (entry_id, tub_id, at, saleable, juveniles, berried, method)
    VALUES (@entryId, @tubId, @at, @saleable, @juveniles, @berried, @method)`);
  const addPasses = db.prepare(`
    INSERT INTO removal_passes (stock_count_id, first, second, third, fourth)
    VALUES (@countId, @first, @second, @third, @fourth)`);
  const latestCount = db.prepare<[number], CountRow>(
    `${liveCounts} WHERE f.tub_id = ? ORDER BY f.at DESC, f.id DESC LIMIT 1`,
  );
  const counts = db.prepare<[number, Instant], CountRow>(
    `${liveCounts} WHERE f.tub_id = ? AND f.at >= ? ORDER BY f.at, f.id`,
  );
  const addMove = db.prepare(`
    INSERT INTO animal_move (entry_id, from_tub_id, to_tub_id, at, number, stage)
    VALUES (@entryId, @fromTubId, @toTubId, @at, @number, @stage)`);
  const moves = db.prepare<[number, number, Instant], MoveRow>(
    `${liveFacts('animal_move')} WHERE (f.from_tub_id = ? OR f.to_tub_id = ?) AND f.at >= ? ORDER BY f.at, f.id`,
  );
  const addLoss = db.prepare(
    'INSERT INTO loss (entry_id, tub_id, at, number, cause) VALUES (@entryId, @tubId, @at, @number, @cause)',
  );
  const losses = db.prepare<[number, Instant], LossRow>(
    `${liveFacts('loss')} WHERE f.tub_id = ? AND f.at >= ? ORDER BY f.at, f.id`,
  );
  const addHold = db.prepare(`
    INSERT INTO hold (entry_id, tub_id, at, reason, until_day, lifted)
    VALUES (@entryId, @tubId, @at, @reason, @until, @lifted)`);
  const latestHold = db.prepare<[number], HoldRow>(
    `${liveFacts('hold')} WHERE f.tub_id = ? ORDER BY f.id DESC LIMIT 1`,
  );

  return {
    addCount: (
      entryId: number,
      count: Pick<StockCount, 'tubId' | 'at' | 'saleable' | 'juveniles' | 'berried'> & { method: TypedCountMethod },
    ): void => {
      addCount.run({ ...count, entryId });
      fresh.note('animals', count.tubId);
    },
    /** A count by removal passes: the estimate as saleable, and the two to four catches that it rests on. */
    addPassesCount: (
      entryId: number,
      { passes, ...count }: Pick<StockCount, 'tubId' | 'at' | 'saleable'> & { readonly passes: readonly number[] },
    ): void => {
      const method: CountMethod = 'passes';
      const { lastInsertRowid } = addCount.run({ ...count, juveniles: null, berried: null, method, entryId });
      const [first, second, third = null, fourth = null] = passes;
      addPasses.run({ countId: lastInsertRowid, first, second, third, fourth });
      fresh.note('animals', count.tubId);
    },
    latestCount: (tubId: number): StockCount | undefined => {
      const row = latestCount.get(tubId);
      return row === undefined ? undefined : countOf(row);
    },
    counts: (tubId: number, since: Instant): StockCount[] => counts.all(tubId, since).map(countOf),
    addMove: (entryId: number, move: Pick<Move, 'fromTubId' | 'toTubId' | 'at' | 'number' | 'stage'>): void => {
      addMove.run({ ...move, entryId });
      for (const tubId of [move.fromTubId, move.toTubId]) fresh.note('animals', tubId);
    },
    /** Moves into or out of a tub since an instant, oldest first. */
    moves: (tubId: number, since: Instant): Move[] => moves.all(tubId, tubId, since).map(moveOf),
    addLoss: (entryId: number, loss: Pick<Loss, 'tubId' | 'at' | 'number' | 'cause'>): void => {
      addLoss.run({ ...loss, entryId });
      fresh.note('animals', loss.tubId);
    },
    losses: (tubId: number, since: Instant): Loss[] => losses.all(tubId, since).map(lossOf),
    addHold: (entryId: number, hold: Pick<Hold, 'tubId' | 'at' | 'reason' | 'until'>, lifted: boolean): void => {
      addHold.run({ ...hold, entryId, lifted: Number(lifted) });
    },
    /** The last word on a tub's being off sale: a hold, or undefined where there is none or it was lifted. Its end is the caller's to judge. */
    latestHold: (tubId: number): Hold | undefined => {
      const row = latestHold.get(tubId);
      if (row === undefined || row.lifted === 1) return undefined;
      return { ...loggedOf(row), tubId: row.tub_id, reason: row.reason, until: row.until_day };
    },
  };
}
