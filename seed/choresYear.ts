import { chores, dueTargets, tickTargets, tubsInUse } from '../src/desk/index.ts';
import {
  addDays,
  type Chore,
  type ChoreTarget,
  daysBetween,
  type LocalDay,
  placeKey,
  placeOf,
  targetsOf,
} from '../src/domain/index.ts';
import { openRandom } from './random.ts';
import { must, type Stage, type Who } from './stage.ts';

/** The chores of the year that are ticked as such; tests, changes and top-ups tick themselves. */
export interface ChoresYear {
  morning(day: LocalDay): void;
  evening(day: LocalDay): void;
}

/** Agreed parts of the minutes. */
const shares: Readonly<Record<Who, number>> = { owner: 60, partner: 40 };

/** Chores with an interval from here on are put off by some days now and then. */
const seldomDays = 7;
/** The seldom ones that no single tub needs were let slide over the last days, so that today has some that are late. */
const letSlideDays = 9;

/** They look at what hangs on facts every so many days, today included. */
const roundDays = 3;

/** Whether a chore comes by more than its interval. */
const hangsOnFacts = ({ season, dependsOn }: Chore): boolean =>
  season !== 'all' || (dependsOn !== 'interval' && dependsOn !== 'warmth');

export function openChoresYear(stage: Stage, seed: number): ChoresYear {
  const { desk, clock } = stage;
  const random = openRandom(seed);
  const dueOn = new Map<string, LocalDay>();
  const minutes: Record<Who, number> = { owner: 0, partner: 0 };

  /** Whose turn it is: the chore's own partner, or who is further behind the agreed share. */
  const turnOf = ({ userId }: Chore): Who => {
    if (userId !== null) return userId === stage.users.owner.userId ? 'owner' : 'partner';
    return minutes.owner / shares.owner <= minutes.partner / shares.partner ? 'owner' : 'partner';
  };

  const tick = (chore: Chore, targets: readonly ChoreTarget[], day: LocalDay): void => {
    if (targets.length === 0) return;
    const who = turnOf(chore);
    const spent = chore.minutes * targets.length;
    clock.pass(Math.min(15, spent));
    must(tickTargets(desk, stage.by(who), chore, targets));
    minutes[who] += spent;
    const late = chore.everyDays >= seldomDays && random.happens(0.25) ? random.whole(1, 3) : 0;
    for (const target of targets) {
      dueOn.set(placeKey(placeOf(chore, target)), addDays(day, chore.everyDays + late));
    }
  };

  /** All places of a chore when the first of them is due, as the hands are wet then; a chore never done begins somewhere in its first interval. */
  const placesDue = (chore: Chore, day: LocalDay): ChoreTarget[] => {
    const begun = addDays(day, random.whole(0, Math.min(chore.everyDays, 28) - 1));
    const targets = targetsOf(chore, tubsInUse(desk));
    const isDue = targets.some((target) => {
      const key = placeKey(placeOf(chore, target));
      if (!dueOn.has(key)) dueOn.set(key, begun);
      return (dueOn.get(key) ?? day) <= day;
    });
    return isDue ? targets : [];
  };

  const own = (day: LocalDay): Chore[] =>
    chores(desk).filter(
      (chore) =>
        chore.act === 'own' &&
        !hangsOnFacts(chore) &&
        (chore.everyDays < seldomDays || chore.scope === 'tub' || day < addDays(stage.today, -letSlideDays)),
    );

  /** What comes by season, young, eggs or holds, where it is due by now. Nobody ticks that they watched for a claim. */
  const tickByFacts = (day: LocalDay): void => {
    for (const chore of chores(desk).filter(hangsOnFacts)) {
      if (chore.dependsOn !== 'claim') tick(chore, dueTargets(desk, chore), day);
    }
  };

  const isDaily = ({ everyDays }: Chore): boolean => everyDays === 1;

  return {
    morning(day) {
      for (const chore of own(day).filter(isDaily)) tick(chore, placesDue(chore, day), day);
    },
    evening(day) {
      for (const chore of own(day)) {
        if (!isDaily(chore)) tick(chore, placesDue(chore, day), day);
      }
      if (daysBetween(day, stage.today) % roundDays === 0) tickByFacts(day);
    },
  };
}
