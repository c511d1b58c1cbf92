import type { DueChore } from '../chore.ts';

/** One doing of a chore on its planned day, to be given to somebody. */
export interface Piece {
  readonly due: DueChore;
  /** Day, counted from the first planned one. */
  readonly at: number;
  readonly minutes: number;
  /** Null: of the business as a whole. */
  readonly rack: string | null;
  /** Places of the partners who may do it. */
  readonly able: readonly number[];
  /** Place of the partner who was told to do it; null: nobody, or one who may not any more. */
  readonly told: number | null;
}

/** Day by day, what belongs to nobody's tub first, then rack by rack, tub by tub as they stand. */
export function inRackOrder<T extends Pick<Piece, 'due' | 'at' | 'rack'>>(pieces: readonly T[]): T[] {
  return [...pieces].sort(
    (a, b) =>
      a.at - b.at ||
      byName(a.rack ?? '', b.rack ?? '') ||
      byName(tubName(a.due), tubName(b.due)) ||
      a.due.chore.id - b.due.chore.id,
  );
}

const tubName = ({ target }: DueChore): string => (target.of === 'tub' ? target.name : '');

/** Names as they stand in the rack: A2 before A10. */
const byName = (a: string, b: string): number =>
  a.length === b.length ? (a < b ? -1 : a > b ? 1 : 0) : a.length - b.length;
