import { addDays, type ClosedWindow, daysBetween, isClosed, type LocalDay, windowEdges } from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { type Desk, todayOf } from '../desk.ts';
import { dispatchDaysAhead } from '../dispatch/judge.ts';
import { openSales, type SaleInTrouble, salesInTrouble } from '../sales/list.ts';
import { type WaitingList, waitingLists } from '../sales/waiting.ts';

/** Days ahead of a window's closing or opening on which it is spoken of. */
export const noticeDays = [28, 14, 7, 1] as const;

/** Back to where a missed notice is taken up. */
const daysTakenUp = 60;

/** What a season notice says. */
export interface SeasonPost {
  readonly day: LocalDay;
  readonly edges: readonly SeasonEdge[];
  /** Open sales that cannot leave on their day, or have none. */
  readonly inTrouble: readonly SaleInTrouble[];
  readonly withoutDay: readonly BookedSale[];
  /** The last good dispatch day before the next closing; null: none, or no closing is near. */
  readonly lastDay: LocalDay | null;
  /** Who waits, where a window is about to open. */
  readonly waiting: readonly WaitingList[];
}

export interface SeasonEdge {
  readonly window: ClosedWindow;
  readonly edge: 'closes' | 'opens';
  /** First closed day, or first open one. */
  readonly on: LocalDay;
  readonly inDays: number;
}

/** Null where no window closes or opens in so many days, and none did since notices were last looked at. */
export function seasonPost(desk: Desk): SeasonPost | null {
  const day = todayOf(desk);
  const since = lastLookedAt(desk, day);
  const edges = desk.store.seasons
    .windows()
    .flatMap((window) => edgesOf(window, day))
    .filter(({ on }) => noticeDays.some((ahead) => addDays(on, -ahead) > since && addDays(on, -ahead) <= day))
    .sort((a, b) => a.inDays - b.inDays);
  if (edges.length === 0) return null;
  const closing = edges.find(({ edge }) => edge === 'closes');
  return {
    day,
    edges,
    inTrouble: salesInTrouble(desk),
    withoutDay: openSales(desk).filter(({ dispatchOn }) => dispatchOn === null),
    lastDay: closing === undefined ? null : lastGoodDayBefore(desk, day, closing.on),
    waiting: edges.some(({ edge }) => edge === 'opens') ? allWaiting(desk) : [],
  };
}

function allWaiting(desk: Desk): WaitingList[] {
  const lists = waitingLists(desk);
  return lists.ok ? lists.value : [];
}

/** The day of the last notice that was sent or found to be needless; the day before where there is none, as on the first day. */
function lastLookedAt(desk: Desk, day: LocalDay): LocalDay {
  const yesterday = addDays(day, -1);
  const before = desk.store.jobRuns
    .since(addDays(day, -daysTakenUp))
    .filter((run) => run.job === 'season' && run.day < day && (run.state === 'sent' || run.state === 'skipped'))
    .map((run) => run.day);
  const wasFolded = desk.store.jobRuns.ofDay('season', yesterday)?.state === 'folded';
  return wasFolded ? (before.sort().at(-1) ?? addDays(day, -daysTakenUp)) : yesterday;
}

function edgesOf(window: ClosedWindow, day: LocalDay): SeasonEdge[] {
  const { closesOn, opensOn } = windowEdges(window, day);
  const edges: SeasonEdge[] = [];
  if (closesOn !== null) edges.push({ window, edge: 'closes', on: closesOn, inDays: daysBetween(day, closesOn) });
  if (opensOn !== null && isClosed(window, day)) {
    edges.push({ window, edge: 'opens', on: opensOn, inDays: daysBetween(day, opensOn) });
  }
  return edges;
}

const lastGoodDayBefore = (desk: Desk, day: LocalDay, before: LocalDay): LocalDay | null =>
  dispatchDaysAhead(desk, daysBetween(day, before)).at(-1)?.day ?? null;
