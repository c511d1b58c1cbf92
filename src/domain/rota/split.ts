import type { Partner } from '../business.ts';
import { addDays, type LocalDay } from '../day.ts';
import type { DueChore } from './chore.ts';
import type { Levelled } from './level.ts';
import { isAway, neverDoes, sharesOf } from './shares.ts';
import { rackOfTarget } from './target.ts';

/** A chore on the day on which it is to be done, and the partner who is to do it. */
export interface RotaTask {
  readonly due: DueChore;
  readonly on: LocalDay;
  /** Null: nobody is there who does it. */
  readonly userId: string | null;
}

/** Minutes that a partner is owed, by the share, and minutes given. */
interface Account {
  owed: number;
  given: number;
}

/**
 * Gives each doing to a partner: the one it belongs to or was handed to, else by share. Owed minutes run up only on days on which a
 * partner is there, so that nobody comes back to the work of a fortnight. Within a day a partner's tubs stand side by side in the rack.
 */
export function split(
  levelled: readonly Levelled[],
  from: LocalDay,
  days: number,
  partners: readonly Partner[],
): RotaTask[] {
  const accounts = new Map<string, Account>(partners.map(({ userId }) => [userId, { owed: 0, given: 0 }]));
  const tasks: RotaTask[] = [];
  for (let index = 0; index < days; index++) {
    const on = addDays(from, index);
    const here = partners.filter((partner) => !isAway(partner, on));
    const today = inRackOrder(levelled.filter(({ at }) => at === index));
    owe(accounts, here, today);
    const fixed = new Map(today.map((one) => [one, belongsTo(one, here)]));
    for (const [{ due }, partner] of fixed) if (partner !== undefined) give(accounts, partner, due.chore.minutes);
    for (const one of today) {
      const own = fixed.get(one);
      const partner = own ?? nextFor(one.due, here, accounts);
      if (own === undefined && partner !== undefined) give(accounts, partner, one.due.chore.minutes);
      tasks.push({ due: one.due, on, userId: partner?.userId ?? null });
    }
  }
  return tasks;
}

/** What belongs to nobody's tub first, then rack by rack, tub by tub as they stand. */
function inRackOrder(today: readonly Levelled[]): Levelled[] {
  const placed = today.map((one) => ({ one, rack: rackOfTarget(one.due.target) ?? '', tub: tubName(one.due) }));
  placed.sort((a, b) => compare(a.rack, b.rack) || compare(a.tub, b.tub) || a.one.due.chore.id - b.one.due.chore.id);
  return placed.map(({ one }) => one);
}

const tubName = ({ target }: DueChore): string => (target.of === 'tub' ? target.name : '');

/** Names as they stand in the rack: A2 before A10. */
const compare = (a: string, b: string): number =>
  a.length === b.length ? (a < b ? -1 : a > b ? 1 : 0) : a.length - b.length;

function owe(accounts: ReadonlyMap<string, Account>, here: readonly Partner[], today: readonly Levelled[]): void {
  const minutes = today.reduce((sum, { due }) => sum + due.chore.minutes, 0);
  const shares = sharesOf(here);
  for (const { userId } of here) {
    const account = accounts.get(userId);
    if (account !== undefined) account.owed += minutes * (shares.get(userId) ?? 0);
  }
}

/** The partner to whom a doing was handed over (once) or whose chore it is, if they are there. */
function belongsTo({ due, again }: Levelled, here: readonly Partner[]): Partner | undefined {
  const handed = again || due.handedTo === null ? undefined : here.find(({ userId }) => userId === due.handedTo);
  return handed ?? here.find(({ userId }) => userId === due.chore.userId);
}

function give(accounts: ReadonlyMap<string, Account>, partner: Partner, minutes: number): void {
  const account = accounts.get(partner.userId);
  if (account !== undefined) account.given += minutes;
}

/**
 * The first partner who is still owed at least half of it, else the one who is owed most. Never one who never does it, and one with
 * no share only where nobody else is there.
 */
function nextFor(
  { chore }: DueChore,
  here: readonly Partner[],
  accounts: ReadonlyMap<string, Account>,
): Partner | undefined {
  const owed = ({ userId }: Partner): number => {
    const account = accounts.get(userId);
    return account === undefined ? 0 : account.owed - account.given;
  };
  const able = here.filter((partner) => !neverDoes(partner, chore.name));
  const sharing = able.filter(({ sharePercent }) => sharePercent !== 0);
  const may = sharing.length > 0 ? sharing : able;
  const first = may.find((partner) => owed(partner) >= chore.minutes / 2);
  return (
    first ??
    may.reduce<Partner | undefined>(
      (best, one) => (best === undefined || owed(one) > owed(best) ? one : best),
      undefined,
    )
  );
}
