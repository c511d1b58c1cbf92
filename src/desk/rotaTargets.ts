import {
  type Chore,
  type ChoreTarget,
  fail,
  folded,
  ok,
  type Refusal,
  type Result,
  rackOfTarget,
  targetsOf,
} from '../domain/index.ts';
import type { Desk } from './desk.ts';
import { findTub, tubsInUse } from './find.ts';
import { type RotaItem, rotaToday } from './rota.ts';

/** What a target is called: "A3", "rack A"; null for the business. */
export function targetName(target: ChoreTarget): string | null {
  if (target.of === 'business') return null;
  return target.of === 'tub' ? target.name : `rack ${target.rack}`;
}

/** "feed, rack A": a chore with what it is about. */
export const choreWithTarget = ({ name }: Pick<Chore, 'name'>, target: ChoreTarget): string => {
  const about = targetName(target);
  return about === null ? name : `${name}, ${about}`;
};

/** What is on the rota of a chore today, or was done of it. */
const today = (desk: Desk, chore: Chore): RotaItem[] => rotaToday(desk).filter(({ due }) => due.chore.id === chore.id);

/**
 * What a chore is to be ticked, put off or handed over for: the tub or rack that was named, else what is due, else what was done of it
 * today, else all. Of a tub chore only one can be meant; of a rack chore all racks are.
 */
export function targetsFor(desk: Desk, chore: Chore, typed: string | undefined): Result<ChoreTarget[], Refusal> {
  const all = targetsOf(chore, tubsInUse(desk));
  if (typed !== undefined && typed.trim() !== '' && chore.scope !== 'business') return namedTarget(desk, all, typed);
  const known = today(desk, chore);
  const open = known.filter(({ done }) => done === null);
  const meant = known.length === 0 ? all : (open.length > 0 ? open : known).map(({ due }) => due.target);
  if (meant.length === 0) return fail({ kind: 'nothing-due', chore: chore.name });
  if (chore.scope === 'tub' && meant.length > 1) {
    return fail({ kind: 'which-target', chore: chore.name, targets: meant.map((target) => targetName(target) ?? '') });
  }
  return ok(meant);
}

/** The target of a tub, or of a rack by its own name or by a tub that stands in it. */
function namedTarget(desk: Desk, all: readonly ChoreTarget[], typed: string): Result<ChoreTarget[], Refusal> {
  const wanted = folded(typed.replace(/^\s*rack\s+/i, ''));
  const rack = all.find((target) => target.of === 'rack' && folded(target.rack) === wanted);
  if (rack !== undefined) return ok([rack]);
  const tub = findTub(desk, typed);
  if (!tub.ok) return tub;
  const { id, rack: its } = tub.value;
  return ok(all.filter((target) => (target.of === 'tub' ? target.tubId === id : rackOfTarget(target) === its)));
}
