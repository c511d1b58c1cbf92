import {
  addDays,
  type By,
  type ChangeLogged,
  type Chore,
  type ChoreTarget,
  type ChoreTick,
  type DueChore,
  fail,
  type LocalDay,
  ok,
  placeKey,
  placeOf,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import { type Desk, log } from '../desk.ts';
import { logChange } from '../water/changes.ts';
import { findChore } from './chores.ts';
import { rotaFacts } from './facts.ts';
import { choreWithTarget, targetsFor } from './targets.ts';

export interface DoneInput {
  readonly chore: string;
  /** A tub, or a rack. */
  readonly tub?: string | undefined;
  /** Of a water change: other litres than the planned ones, and that it really was a second one. */
  readonly litres?: number | undefined;
  readonly second?: boolean | undefined;
}

/** A tick, or the water change that a tick stands for. */
export type ChoreTicked =
  | { readonly of: 'change'; readonly logged: ChangeLogged; readonly entryId: number }
  | {
      readonly of: 'tick';
      readonly chore: Chore;
      readonly targets: readonly ChoreTarget[];
      /** The day on which it would have been due; null: it was due. */
      readonly earlierThan: LocalDay | null;
      /** Null: it does not come again by itself. */
      readonly nextOn: LocalDay | null;
      readonly entryId: number;
    };

/** Ticks a chore, due or not. Ticking a water change logs the change; what was done today already is refused. */
export function doneChore(desk: Desk, by: By, input: DoneInput): Result<ChoreTicked, Refusal> {
  const found = findChore(desk, input.chore);
  if (!found.ok) return found;
  const chore = found.value;
  const wanted = targetsFor(desk, chore, input.tub);
  if (!wanted.ok) return wanted;
  return tickTargets(desk, by, chore, wanted.value, input);
}

/** Ticks a chore for these targets in one entry. */
export function tickTargets(
  desk: Desk,
  by: By,
  chore: Chore,
  targets: readonly ChoreTarget[],
  more: Pick<DoneInput, 'litres' | 'second'> = {},
): Result<ChoreTicked, Refusal> {
  const [target] = targets;
  if (chore.act === 'change' && target?.of === 'tub') {
    const logged = logChange(desk, by, { tub: target.name, litres: more.litres, second: more.second });
    return logged.ok ? ok({ of: 'change', logged: logged.value, entryId: logged.value.entryId }) : logged;
  }
  const { due, doneToday, today } = rotaFacts(desk, chore);
  const keys = new Map(targets.map((one) => [one, placeKey(placeOf(chore, one))]));
  const open = targets.filter((one) => !doneToday.has(keys.get(one) ?? ''));
  if (open.length === 0)
    return fail(alreadyDone(chore, target, doneToday.get(keys.get(target ?? { of: 'business' }) ?? '')));
  const meant = due.filter((one) => open.some((other) => keys.get(other) === placeKey(placeOf(chore, one.target))));
  const earliest = meant.map(({ dueOn }) => dueOn).sort()[0];
  const summary = `${open.map((one) => choreWithTarget(chore, one)).join('; ')}: done`;
  const entryId = log(desk, by, 'chore-done', summary, (entry, now) => {
    for (const one of open) desk.store.chores.addDone(entry, placeOf(chore, one), now);
  });
  return ok({
    of: 'tick',
    chore,
    targets: open,
    earlierThan: earliest !== undefined && earliest > today ? earliest : null,
    nextOn: nextAfter(today, chore, meant),
    entryId,
  });
}

/** The day on which the first of these falls due again, done today; null: none does by itself, or there is no use for it by then. */
function nextAfter(today: LocalDay, chore: Chore, done: readonly DueChore[]): LocalDay | null {
  if (done.length === 0) return chore.dependsOn === 'interval' ? addDays(today, chore.everyDays) : null;
  const days = done.flatMap(({ everyDays, until }) => {
    const next = everyDays === null ? null : addDays(today, everyDays);
    return next === null || (until !== null && next > until) ? [] : [next];
  });
  return days.sort()[0] ?? null;
}

const alreadyDone = (chore: Chore, target: ChoreTarget | undefined, tick: ChoreTick | undefined): Refusal =>
  tick === undefined
    ? { kind: 'nothing-due', chore: chore.name }
    : { kind: 'done-already', what: choreWithTarget(chore, target ?? { of: 'business' }), at: tick.at, by: tick.by };
