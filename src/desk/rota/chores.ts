import {
  amount,
  type By,
  type Chore,
  type ChoreGround,
  type ChoreScope,
  type ChoreSeason,
  fail,
  firstImpossible,
  folded,
  ok,
  type Person,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import { businessOf, type Desk, log } from '../desk.ts';
import { byName } from '../find.ts';
import { isName, setInBusiness } from '../setup.ts';

/** The chores that are on, and whose they are. A water change comes by the change policy, so that is its interval. */
export function chores(desk: Desk): Chore[] {
  return allChores(desk).filter(({ off }) => !off);
}

/** Those that are off too. */
export function allChores(desk: Desk): Chore[] {
  const { changeIntervalDays } = businessOf(desk);
  return desk.store.chores
    .chores()
    .map((chore) => (chore.act === 'change' ? { ...chore, everyDays: changeIntervalDays } : chore));
}

/** A chore that is on, by its name. */
export const findChore = (desk: Desk, typed: string): Result<Chore, Refusal> => byName('chore', typed, chores(desk));

/** Name of the partner whose chore it is; null: shared. */
export const choreOwner = (desk: Desk, { userId }: Chore): string | null =>
  desk.store.settings.partners().find((partner) => partner.userId === userId)?.name ?? null;

export interface ChoreInput {
  readonly name: string;
  readonly everyDays: number;
  readonly minutes: number;
  readonly scope?: ChoreScope | undefined;
  readonly season?: ChoreSeason | undefined;
  readonly dependsOn?: ChoreGround | undefined;
  readonly partner?: Person | undefined;
}

export interface ChoreSet {
  readonly chore: Chore;
  /** Name of the partner whose chore it is; null: shared. */
  readonly owner: string | null;
  readonly entryId: number;
}

export function addChore(desk: Desk, by: By, input: ChoreInput): Result<ChoreSet, Refusal> {
  const name = input.name.trim();
  if (!isName(name)) return fail({ kind: 'bad-name', noun: 'chore', typed: input.name });
  const refused = firstImpossible([
    ['days', input.everyDays],
    ['minutes', input.minutes],
  ]);
  if (refused !== null) return fail(refused);
  if (allChores(desk).some((chore) => folded(chore.name) === folded(name))) {
    return fail({ kind: 'name-taken', noun: 'chore', name });
  }
  const partner = partnerOf(desk, input.partner);
  if (!partner.ok) return partner;
  const chore = {
    name,
    act: 'own' as const,
    everyDays: input.everyDays,
    minutes: input.minutes,
    scope: input.scope ?? 'business',
    season: input.season ?? 'all',
    dependsOn: input.dependsOn ?? 'interval',
    userId: partner.value,
    off: false,
  };
  let added: Chore = { ...chore, id: 0, addedAt: desk.now() };
  const entryId = log(desk, by, 'chore', `added chore ${name}`, (entry, now) => {
    added = { ...chore, addedAt: now, id: desk.store.chores.addChore(entry, { ...chore, addedAt: now }) };
  });
  return ok({ chore: added, owner: choreOwner(desk, added), entryId });
}

export interface ChoreEdit {
  readonly chore: string;
  readonly everyDays?: number | undefined;
  readonly minutes?: number | undefined;
  readonly season?: ChoreSeason | undefined;
  readonly dependsOn?: ChoreGround | undefined;
  /** Whose chore it becomes; named again, it is shared again. */
  readonly partner?: Person | undefined;
  readonly off?: boolean | undefined;
}

/** Changes a chore. The interval of the water change is the change policy's, which only an owner sets. */
export function editChore(desk: Desk, by: By, isOwner: boolean, input: ChoreEdit): Result<ChoreSet, Refusal> {
  const found = byName('chore', input.chore, allChores(desk));
  if (!found.ok) return found;
  const before = found.value;
  const { chore: _, ...given } = input;
  if (Object.values(given).every((value) => value === undefined)) {
    return fail({ kind: 'nothing-given', what: 'every-days, minutes, season, depends-on, partner or off' });
  }
  const refused = firstImpossible([
    ['days', input.everyDays],
    ['minutes', input.minutes],
  ]);
  if (refused !== null) return fail(refused);
  const partner = partnerOf(desk, input.partner);
  if (!partner.ok) return partner;
  const isPolicy = before.act === 'change' && input.everyDays !== undefined && input.everyDays !== before.everyDays;
  if (isPolicy) {
    if (!isOwner) return fail({ kind: 'owner-only', what: 'set how often water is changed' });
    const allowed = amount('interval', input.everyDays ?? 0);
    if (!allowed.ok) return allowed;
  }
  const after: Chore = {
    ...before,
    everyDays: input.everyDays ?? before.everyDays,
    minutes: input.minutes ?? before.minutes,
    season: input.season ?? before.season,
    dependsOn: input.dependsOn ?? before.dependsOn,
    userId: input.partner === undefined || partner.value !== before.userId ? (partner.value ?? before.userId) : null,
    off: input.off ?? before.off,
  };
  const entryId = log(desk, by, 'chore', summaryOf(before, after), (entry) => {
    desk.store.chores.editChore(entry, after);
    // In the same entry, so that undoing it brings back the interval of the policy too.
    if (isPolicy) setInBusiness(desk, entry, { changeIntervalDays: after.everyDays });
  });
  return ok({ chore: after, owner: choreOwner(desk, after), entryId });
}

function summaryOf(before: Chore, after: Chore): string {
  if (before.off !== after.off) return `turned chore ${after.name} ${after.off ? 'off' : 'on'}`;
  return `changed chore ${after.name}`;
}

/** The user id of a partner; a member who is none is refused. */
function partnerOf(desk: Desk, person: Person | undefined): Result<string | null, Refusal> {
  if (person === undefined) return ok(null);
  const partners = desk.store.settings.partners();
  return partners.some(({ userId }) => userId === person.userId)
    ? ok(person.userId)
    : fail({ kind: 'unknown', noun: 'partner', typed: person.name, near: partners.map(({ name }) => name) });
}

/** The partner that a member is. */
export function findPartner(desk: Desk, person: Person): Result<Person, Refusal> {
  const found = partnerOf(desk, person);
  return found.ok ? ok(person) : found;
}
