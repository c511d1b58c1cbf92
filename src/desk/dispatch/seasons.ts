import {
  type By,
  type ClosedWindow,
  fail,
  folded,
  isWholeYear,
  type LocalDay,
  type MonthDay,
  ok,
  type Refusal,
  type Result,
  windowEdges,
} from '../../domain/index.ts';
import { type Desk, log, todayOf } from '../desk.ts';
import { byName } from '../find.ts';
import { type SaleInTrouble, salesInTrouble } from '../sales/list.ts';
import { isName } from '../setup.ts';

export interface SeasonInput {
  readonly from?: MonthDay | undefined;
  readonly to?: MonthDay | undefined;
  readonly name?: string | undefined;
  readonly remove?: boolean | undefined;
}

/** A closed window with its next edges as seen from today. */
export interface SeasonWindow {
  readonly window: ClosedWindow;
  readonly closesOn: LocalDay | null;
  readonly opensOn: LocalDay | null;
  readonly isClosedNow: boolean;
  readonly wholeYear: boolean;
}

export interface SeasonAnswer {
  readonly done: 'listed' | 'added' | 'changed' | 'removed';
  /** The one that was added, changed or removed. */
  readonly window: ClosedWindow | null;
  readonly windows: readonly SeasonWindow[];
  /** Open sales whose day is not good now, those on a closed day first. */
  readonly inTrouble: readonly SaleInTrouble[];
  readonly entryId: number | null;
}

/** Closed windows in the order of the year, with when they next close and open. */
export function seasons(desk: Desk): SeasonWindow[] {
  const today = todayOf(desk);
  return desk.store.seasons.windows().map((window) => {
    const { closesOn, opensOn } = windowEdges(window, today);
    const wholeYear = isWholeYear(window);
    const isClosedNow = wholeYear || (opensOn !== null && (closesOn === null || opensOn < closesOn));
    return { window, closesOn, opensOn, isClosedNow, wholeYear };
  });
}

/** Lists the closed windows, or adds one, changes the one of that name, or removes it; and what that means for the open sales. */
export function setSeason(desk: Desk, by: By, input: SeasonInput): Result<SeasonAnswer, Refusal> {
  const windows = desk.store.seasons.windows();
  const name = input.name?.trim() ?? '';
  const old = name === '' ? undefined : windows.find((window) => folded(window.name) === folded(name));
  if (input.remove === true) return removeWindow(desk, by, input.name, windows);
  if (input.from === undefined && input.to === undefined) {
    if (name === '') return ok(answerOf(desk, 'listed', null, null));
    if (old === undefined)
      return fail({ kind: 'nothing-given', what: 'close-from and close-to, for example 1 Dec and 29 Feb' });
    return ok(answerOf(desk, 'listed', old, null));
  }
  if (old !== undefined) {
    const window = { ...old, from: input.from ?? old.from, to: input.to ?? old.to };
    const entryId = log(desk, by, 'season', `closed window ${old.name}: ${window.from} to ${window.to}`, (entry) => {
      desk.store.seasons.editWindow(entry, window);
    });
    return ok(answerOf(desk, 'changed', window, entryId));
  }
  const { from, to } = input;
  if (from === undefined || to === undefined) {
    return fail({ kind: 'nothing-given', what: from === undefined ? 'close-from too' : 'close-to too' });
  }
  const added = { name: name === '' ? freeName(windows) : name, from, to };
  if (!isName(added.name)) return fail({ kind: 'bad-name', noun: 'window', typed: added.name });
  let id = 0;
  const entryId = log(desk, by, 'season', `closed window ${added.name}: ${from} to ${to}`, (entry) => {
    id = desk.store.seasons.addWindow(entry, added);
  });
  return ok(answerOf(desk, 'added', { ...added, id }, entryId));
}

function removeWindow(
  desk: Desk,
  by: By,
  typed: string | undefined,
  windows: readonly ClosedWindow[],
): Result<SeasonAnswer, Refusal> {
  const [only, ...others] = windows;
  const found =
    typed === undefined && only !== undefined && others.length === 0
      ? ok(only)
      : byName('window', typed ?? '', windows);
  if (!found.ok) return found;
  const window = found.value;
  const entryId = log(desk, by, 'season', `closed window ${window.name} removed`, (entry) => {
    desk.store.seasons.removeWindow(entry, window);
  });
  return ok(answerOf(desk, 'removed', window, entryId));
}

function freeName(windows: readonly ClosedWindow[]): string {
  const taken = new Set(windows.map(({ name }) => folded(name)));
  const names = ['closed', ...Array.from({ length: windows.length + 1 }, (_, index) => `closed ${index + 2}`)];
  return names.find((name) => !taken.has(folded(name))) ?? 'closed';
}

function answerOf(
  desk: Desk,
  done: SeasonAnswer['done'],
  window: ClosedWindow | null,
  entryId: number | null,
): SeasonAnswer {
  const onClosedDay = ({ judged }: SaleInTrouble): boolean =>
    judged.reasons.some(({ kind }) => kind === 'closed-window');
  const all = salesInTrouble(desk);
  const inTrouble = [...all.filter(onClosedDay), ...all.filter((trouble) => !onClosedDay(trouble))];
  return { done, window, windows: seasons(desk), inTrouble, entryId };
}
