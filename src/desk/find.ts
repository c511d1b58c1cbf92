import {
  fail,
  folded,
  type Line,
  type Noun,
  nearest,
  ok,
  type Refusal,
  type Result,
  type Tub,
} from '../domain/index.ts';
import type { Desk } from './desk.ts';

/** The one of `things` that `typed` names, without regard to case and blanks; or a refusal with the names that are near. */
export function byName<T extends { readonly name: string }>(
  noun: Noun,
  typed: string,
  things: readonly T[],
): Result<T, Refusal> {
  const wanted = folded(typed);
  const found = things.find(({ name }) => folded(name) === wanted);
  if (found !== undefined) return ok(found);
  return fail({
    kind: 'unknown',
    noun,
    typed,
    near: nearest(
      typed,
      things.map(({ name }) => name),
    ),
  });
}

/** A tub in use by its name ("a3", "tub A3"). */
export function findTub(desk: Desk, typed: string): Result<Tub, Refusal> {
  const tubs = desk.store.tubs.tubs();
  const inUse = tubs.filter(({ retired }) => retired === null);
  const bare = typed.replace(/^\s*tub\s+/i, '');
  const asTyped = byName('tub', typed, inUse);
  const found = asTyped.ok ? asTyped : byName('tub', bare, inUse);
  if (found.ok) return found;
  const retired = byName('tub', bare, tubs);
  if (retired.ok && retired.value.retired !== null) {
    return fail({ kind: 'tub-retired', tub: retired.value.name, at: retired.value.retired.at });
  }
  return found;
}

export const findLine = (desk: Desk, typed: string): Result<Line, Refusal> =>
  byName('line', typed, desk.store.tubs.lines());

/** Tubs in use, in rack order. */
export const tubsInUse = (desk: Desk): Tub[] => desk.store.tubs.tubs().filter(({ retired }) => retired === null);

/** A tub by its id, as controls carry it; undefined where it was undone. */
export const tubById = (desk: Desk, id: number): Tub | undefined => desk.store.tubs.tub(id);

export const linesOf = (desk: Desk): Line[] => desk.store.tubs.lines();
