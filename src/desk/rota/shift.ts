import {
  addDays,
  type By,
  type Chore,
  type ChoreTarget,
  fail,
  type LocalDay,
  laterDays,
  ok,
  type Person,
  placeKey,
  placeOf,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import { type Desk, log, todayOf } from '../desk.ts';
import { findChore, findPartner } from './chores.ts';
import { keyOf, rotaFacts } from './facts.ts';
import { choreWithTarget, targetsFor } from './targets.ts';

export interface ChoreShifted {
  readonly chore: Chore;
  readonly targets: readonly ChoreTarget[];
  readonly entryId: number;
}

/** Puts a chore off by a seventh of its interval, at least a day from when it is due. */
export function putOffChore(
  desk: Desk,
  by: By,
  input: { readonly chore: string; readonly tub?: string | undefined; readonly reason: string },
): Result<ChoreShifted & { readonly until: LocalDay; readonly reason: string }, Refusal> {
  const reason = input.reason.trim();
  if (reason === '') return fail({ kind: 'nothing-given', what: 'a reason' });
  const meant = meantBy(desk, input);
  if (!meant.ok) return meant;
  const { chore, targets } = meant.value;
  const keys = targets.map((target) => placeKey(placeOf(chore, target)));
  const dueDays = rotaFacts(desk, chore)
    .due.filter((due) => keys.includes(keyOf(due)))
    .map(({ dueOn }) => dueOn);
  const from = [todayOf(desk), ...dueDays].sort().at(-1) ?? todayOf(desk);
  const until = addDays(from, laterDays(chore.everyDays));
  const entryId = log(
    desk,
    by,
    'chore-later',
    `${namesOf(chore, targets)}: put off to ${until}, ${reason}`,
    (entry, at) => {
      for (const target of targets) desk.store.chores.addLater(entry, placeOf(chore, target), { at, until, reason });
    },
  );
  return ok({ chore, targets, until, reason, entryId });
}

/** Hands a chore to a partner until it is done the next time. */
export function handOverChore(
  desk: Desk,
  by: By,
  input: { readonly chore: string; readonly tub?: string | undefined; readonly partner: Person },
): Result<ChoreShifted & { readonly to: Person }, Refusal> {
  const to = findPartner(desk, input.partner);
  if (!to.ok) return to;
  const meant = meantBy(desk, input);
  if (!meant.ok) return meant;
  const { chore, targets } = meant.value;
  const { userId, name } = to.value;
  const entryId = log(desk, by, 'hand-over', `${namesOf(chore, targets)}: handed to ${name}`, (entry, at) => {
    for (const target of targets) desk.store.chores.addHandOver(entry, placeOf(chore, target), { at, userId });
  });
  return ok({ chore, targets, to: to.value, entryId });
}

function meantBy(
  desk: Desk,
  input: { readonly chore: string; readonly tub?: string | undefined },
): Result<{ chore: Chore; targets: ChoreTarget[] }, Refusal> {
  const chore = findChore(desk, input.chore);
  if (!chore.ok) return chore;
  const targets = targetsFor(desk, chore.value, input.tub);
  return targets.ok ? ok({ chore: chore.value, targets: targets.value }) : targets;
}

const namesOf = (chore: Chore, targets: readonly ChoreTarget[]): string =>
  targets.map((target) => choreWithTarget(chore, target)).join('; ');
