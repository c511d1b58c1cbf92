import {
  addDays,
  type DueChore,
  daysBetween,
  isAway,
  type LocalDay,
  neverDoes,
  type Partner,
  type RotaTask,
  sharesOf,
} from '../../src/domain/index.ts';

/** What a rota is judged by, reckoned from its tasks alone. */
export interface RotaMeasure {
  /** Minutes of the heaviest day. */
  readonly peak: number;
  /** Largest distance between the minutes that a partner is given and their share of each day's. */
  readonly unfair: number;
  /** Doings later than due or further apart than the interval, and tasks for who is away or never does them. */
  readonly broken: number;
}

const minutesOf = (tasks: readonly RotaTask[]): number => tasks.reduce((sum, { due }) => sum + due.chore.minutes, 0);

/** Minutes over or under the share, by partner. */
export function offShare(tasks: readonly RotaTask[], partners: readonly Partner[]): number[] {
  const days = [...new Set(tasks.map(({ on }) => on))];
  const given = tasks.filter(({ userId }) => userId !== null);
  return partners.map((partner) => {
    const owed = days.reduce((sum, on) => {
      const shares = sharesOf(partners.filter((one) => !isAway(one, on)));
      return sum + (shares.get(partner.userId) ?? 0) * minutesOf(given.filter((task) => task.on === on));
    }, 0);
    return minutesOf(given.filter(({ userId }) => userId === partner.userId)) - owed;
  });
}

export function measureRota(
  tasks: readonly RotaTask[],
  due: readonly DueChore[],
  partners: readonly Partner[],
  { from, days }: { readonly from: LocalDay; readonly days: number },
): RotaMeasure {
  const perDay = Array.from({ length: days }, (_, at) => minutesOf(tasks.filter(({ on }) => on === addDays(from, at))));
  return {
    peak: Math.max(...perDay),
    unfair: Math.max(...offShare(tasks, partners).map(Math.abs)),
    broken:
      due.reduce((sum, one) => sum + brokenBounds(one, tasks, from, days), 0) + tasks.filter(mayNot(partners)).length,
  };
}

/** How often a chore comes too late. */
function brokenBounds(one: DueChore, tasks: readonly RotaTask[], from: LocalDay, days: number): number {
  const own = tasks.filter(({ due }) => due === one).map(({ on }) => daysBetween(from, on));
  const latest = Math.max(0, daysBetween(from, one.dueOn));
  const every = one.everyDays ?? Number.POSITIVE_INFINITY;
  const bounds = [latest, ...own.map((at) => at + every)];
  return bounds.filter((bound, nth) => bound < days && (own[nth] ?? Number.POSITIVE_INFINITY) > bound).length;
}

const mayNot =
  (partners: readonly Partner[]) =>
  ({ userId, on, due }: RotaTask): boolean => {
    const partner = partners.find((one) => one.userId === userId);
    return partner !== undefined && (isAway(partner, on) || neverDoes(partner, due.chore.name));
  };
