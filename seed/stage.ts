import { type Desk, linesOf, stock } from '../src/desk/index.ts';
import type { By, LineStock, LocalDay, Person, Refusal, Result } from '../src/domain/index.ts';
import type { YearClock } from './yearClock.ts';

/** The two of the demo business, by what they are in it. */
export type Who = 'owner' | 'partner';
export type Users = Readonly<Record<Who, Person>>;

/** What every part of the year works with. */
export interface Stage {
  readonly desk: Desk;
  readonly clock: YearClock;
  readonly users: Users;
  /** Day of the `now` at which the year ends; nothing happens on it any more. */
  readonly today: LocalDay;
  /** One of the two acting; while one is away it is the other. */
  by(who: Who): By;
  /** Says that one of the two is away, both days included. */
  sendAway(who: Who, from: LocalDay, to: LocalDay): void;
  /** Acts so far. */
  acts(): number;
}

export function openStage(desk: Desk, clock: YearClock, users: Users, today: LocalDay): Stage {
  let acts = 0;
  const away = new Map<Who, { from: LocalDay; to: LocalDay }>();
  const isAway = (who: Who): boolean => {
    const stretch = away.get(who);
    const day = clock.today();
    return stretch !== undefined && day >= stretch.from && day <= stretch.to;
  };
  return {
    desk,
    clock,
    users,
    today,
    by(who) {
      acts += 1;
      const there: Who = isAway(who) ? (who === 'owner' ? 'partner' : 'owner') : who;
      return { ...users[there], key: `demo-${acts}` };
    },
    sendAway(who, from, to) {
      away.set(who, { from, to });
    },
    acts: () => acts,
  };
}

/** The value of an act that the demo year takes for granted; a refusal of it is a bug of the year. */
export function must<T>(result: Result<T, Refusal>): T {
  if (result.ok) return result.value;
  throw new Error(`the demo year was refused: ${JSON.stringify(result.fault)}`);
}

/** A line's stock by its name. */
export function stockOfLine({ desk }: Stage, name: string): LineStock {
  const [found] = must(stock(desk, name));
  if (found === undefined) throw new Error(`the demo business has no line ${name}`);
  return found;
}

export const lineNames = ({ desk }: Stage): string[] => linesOf(desk).map(({ name }) => name);
