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
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { findTub, tubsInUse } from '../find.ts';
import { rotaFacts } from './facts.ts';
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

/** Where a chore is due by today, whatever is planned. */
export function dueTargets(desk: Desk, chore: Chore): ChoreTarget[] {
  const { due, today: day } = rotaFacts(desk, chore);
  return due.filter(({ dueOn, until }) => dueOn <= day && (until === null || until >= day)).map(({ target }) => target);
}

/** What is on the rota of a chore today, or was done of it. */
const today = (desk: Desk, chore: Chore): RotaItem[] => rotaToday(desk).filter(({ due }) => due.chore.id === chore.id);

/**
 * What a chore is to be ticked, put off or handed over for: the tub or rack that was named, else what is open today. Of a tub chore only
 * one can be meant; of a rack chore all racks that are due are, or every rack where none is and none was done today.
 */
export function targetsFor(desk: Desk, chore: Chore, typed: string | undefined): Result<ChoreTarget[], Refusal> {
  const all = targetsOf(chore, tubsInUse(desk));
  if (typed !== undefined && typed.trim() !== '' && chore.scope !== 'business') return namedTarget(desk, all, typed);
  const known = today(desk, chore);
  const open = known.filter(({ done }) => done === null).map(({ due }) => due.target);
  const tick = known.find(({ done }) => done !== null)?.done ?? null;
  if (open.length === 0 && tick !== null) return fail({ kind: 'done-already', what: chore.name, ...tick });
  const meant = open.length > 0 ? open : all;
  if (chore.scope !== 'tub' || meant.length === 1) return meant.length > 0 ? ok(meant) : nothingDue(chore);
  if (open.length === 0) return nothingDue(chore);
  return fail({ kind: 'which-target', chore: chore.name, targets: open.map((target) => targetName(target) ?? '') });
}

const nothingDue = ({ name }: Chore): Result<never, Refusal> => fail({ kind: 'nothing-due', chore: name });

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
