import type { Chore, ChoreTarget, ChoreTick, DueChore, LocalDay } from '../domain/index.ts';
import { counted, figure, someWords } from './voice.ts';

/** A chore of the rota, as the cards need it. */
export interface RotaLine {
  readonly due: DueChore;
  readonly on: LocalDay;
  readonly userId: string | null;
  readonly partner: string | null;
  readonly litres: number | null;
  readonly done: ChoreTick | null;
  readonly lateDays: number;
  readonly tubId: number | null;
}

/** "A3", "rack A"; empty for the business. */
export const targetWords = (target: ChoreTarget): string =>
  target.of === 'business' ? '' : target.of === 'tub' ? target.name : `rack ${target.rack}`;

/** "feed, rack A", "water change, A3", "look-round". */
export const taskWords = ({ name }: Pick<Chore, 'name'>, target: ChoreTarget): string =>
  [name, targetWords(target)].filter((word) => word !== '').join(', ');

/** What matters first: water, then what has waited longest for its interval, then what is done every day, then the rest. */
export function inOrderOfWeight<T extends RotaLine>(lines: readonly T[]): T[] {
  const isWater = ({ due: { chore } }: RotaLine): number => Number(chore.act === 'change');
  const waited = ({ lateDays, due: { chore } }: RotaLine): number => lateDays / chore.everyDays;
  return [...lines].sort(
    (a, b) =>
      isWater(b) - isWater(a) ||
      waited(b) - waited(a) ||
      a.due.chore.everyDays - b.due.chore.everyDays ||
      a.due.chore.id - b.due.chore.id,
  );
}

/** "water change A1, A2 and A4 · feed rack A · look-round": chores with what they are about, what matters first, at most so many. */
export function taskList(lines: readonly RotaLine[], most = Number.POSITIVE_INFINITY): string {
  const all = groups(lines);
  const shown = all.slice(0, most).map(groupWords);
  return [...shown, ...(all.length > shown.length ? [`${all.length - shown.length} more`] : [])].join(' · ');
}

/** "water change A1 and A3 (2 days late), A4", "rack A and B": the late ones apart, so that the days are theirs alone. */
function groupWords(group: readonly [RotaLine, ...RotaLine[]]): string {
  const [{ due }] = group;
  const late = group.filter(({ lateDays }) => lateDays > 0);
  const names = group.filter(({ lateDays }) => lateDays === 0).map(nameIn);
  const parts = [...(late.length > 0 ? [lateTargets(late)] : []), ...(names.length > 0 ? [someWords(names, 6)] : [])];
  const about = parts.filter((part) => part !== '').join(', ');
  const racks = due.target.of === 'rack' ? ' rack' : '';
  return `${due.chore.name}${racks}${about === '' ? '' : ` ${about}`}`;
}

const nameIn = ({ due: { target } }: RotaLine): string => (target.of === 'rack' ? target.rack : targetWords(target));

/** "A1 and A3 (2 to 5 days late)"; of a chore of the business only the days. */
function lateTargets(late: readonly RotaLine[]): string {
  const days = late.map(({ lateDays }) => lateDays);
  const [least, most] = [Math.min(...days), Math.max(...days)];
  const age = `(${least === most ? '' : `${least} to `}${counted(most, 'day')} late)`;
  return [someWords(late.map(nameIn), 6), age].filter((part) => part !== '').join(' ');
}

/** Lines of one chore side by side, in order of weight. */
function groups(lines: readonly RotaLine[]): [RotaLine, ...RotaLine[]][] {
  const found = new Map<number, [RotaLine, ...RotaLine[]]>();
  for (const line of inOrderOfWeight(lines)) {
    const group = found.get(line.due.chore.id);
    if (group === undefined) found.set(line.due.chore.id, [line]);
    else group.push(line);
  }
  for (const group of found.values())
    group.sort((a, b) => compareNames(targetWords(a.due.target), targetWords(b.due.target)));
  return [...found.values()];
}

const compareNames = (a: string, b: string): number => a.length - b.length || a.localeCompare(b);

/** Lines by the partner whose they are, those that nobody can do last. */
export function byPartner<T extends RotaLine>(lines: readonly T[]): [string, T[]][] {
  const found = new Map<string, T[]>();
  for (const line of lines) {
    const who = line.partner ?? nobody;
    found.set(who, [...(found.get(who) ?? []), line]);
  }
  return [...found].sort(([a], [b]) => Number(a === nobody) - Number(b === nobody) || a.localeCompare(b));
}

/** Where no partner is there, or all of them never do it. */
export const nobody = 'nobody yet';

export const minutesOf = (lines: readonly RotaLine[]): number =>
  lines.reduce((sum, { due }) => sum + due.chore.minutes, 0);

/** "52 min", "1 h 20 min". */
export function minutesWords(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return `${figure(minutes < 1 ? minutes : whole)} min`;
  return whole % 60 === 0 ? `${whole / 60} h` : `${Math.floor(whole / 60)} h ${whole % 60} min`;
}

/** "every day", "every 2 days". */
export const everyWords = (days: number): string => (days === 1 ? 'every day' : `every ${days} days`);

/** Who did what: "wren: water change A1 and A2". */
export function doneWords(lines: readonly RotaLine[], most?: number): string[] {
  const done = lines.flatMap((line) => (line.done === null ? [] : [{ ...line, partner: line.done.by, lateDays: 0 }]));
  return byPartner(done).map(([who, own]) => `Done by ${who}: ${taskList(own, most)}`);
}
