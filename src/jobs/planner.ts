import {
  addDays,
  dayMs,
  dayOf,
  daysBetween,
  hourMs,
  type Instant,
  instantAt,
  instantOf,
  type Job,
  jobs,
  type LocalDay,
  minuteMs,
  msOf,
  plusMs,
  type SlotState,
  type WallTime,
  type Weekday,
  weekdayOf,
} from '../domain/index.ts';

/** When each job runs, as wall times of the business's zone. */
export interface Schedule {
  readonly zone: string;
  readonly morningAt: WallTime;
  readonly eveningAt: WallTime;
  readonly weeklyOn: Weekday;
  readonly weeklyAt: WallTime;
  /** Since when the weekly day and time stand; null: from the start. A week before that is not missed. */
  readonly weeklySince: Instant | null;
}

/** A job on a local day of the business, and the moment from which it is due. */
export interface Slot {
  readonly job: Job;
  readonly day: LocalDay;
  readonly at: Instant;
}

/**
 * What to do about a slot. run: for the first time · check: it was claimed but never settled, so look whether it was posted, and post
 * it only while `mayPost` · pass: its moment is past.
 */
export type Step =
  | { readonly do: 'run'; readonly slot: Slot; readonly lateMinutes: number }
  | { readonly do: 'check'; readonly slot: Slot; readonly lateMinutes: number; readonly mayPost: boolean }
  | { readonly do: 'pass'; readonly slot: Slot; readonly as: 'folded' | 'skipped'; readonly note: string };

export interface PlanQuestion {
  readonly schedule: Schedule;
  /** What the ledger holds of the days looked back on. */
  readonly ledger: readonly SlotState[];
  /** The first start ever: nothing before it counts as missed. */
  readonly startedAt: Instant;
  readonly now: Instant;
}

/** How far back slots are accounted for. Whoever was away longer starts anew. */
export const daysLookedBack = 400;

const backupAt = '03:30' as WallTime;
const midnight = '00:00' as WallTime;
const noon = '12:00' as WallTime;

/** A morning post set after noon still has an hour. */
const leastGraceMs = hourMs;

/**
 * What is to be done now about every slot that is due and not settled: first what is only passed over, so that the first post can say
 * so, then the rest in the order of their moments.
 */
export function plan({ schedule, ledger, startedAt, now }: PlanQuestion): Step[] {
  const known = new Map(ledger.filter((run) => counts(run, now)).map((run) => [`${run.job} ${run.day}`, run.state]));
  const today = dayOf(now, schedule.zone);
  const back = Math.min(daysLookedBack, Math.max(0, daysBetween(dayOf(startedAt, schedule.zone), today)));
  const steps: Step[] = [];
  for (let ago = back; ago >= 0; ago--) {
    const day = addDays(today, -ago);
    for (const job of jobs) {
      const state = known.get(`${job} ${day}`);
      if ((state !== undefined && state !== 'claimed') || !isOn(job, day, schedule)) continue;
      const slot = { job, day, at: instantAt(day, timeOfJob(job, schedule), schedule.zone) };
      if (slot.at > now || (state === undefined && !counted(slot, schedule, startedAt))) continue;
      steps.push(stepFor(slot, state === 'claimed', schedule.zone, now));
    }
  }
  const order = (step: Step): string => `${step.do === 'pass' ? 0 : 1} ${step.slot.at}`;
  return steps.sort((a, b) => (order(a) < order(b) ? -1 : order(a) > order(b) ? 1 : 0));
}

/** The first moment after `now`, up to `until`, at which a slot falls due that is not in the ledger; null: none. */
export function nextMoment({ schedule, ledger, startedAt, now }: PlanQuestion, until: Instant): Instant | null {
  const known = new Set(ledger.filter((run) => counts(run, until)).map(({ job, day }) => `${job} ${day}`));
  const last = dayOf(until, schedule.zone);
  for (let day = addDays(dayOf(now, schedule.zone), -1); day <= last; day = addDays(day, 1)) {
    const moments = jobs
      .filter((job) => isOn(job, day, schedule) && !known.has(`${job} ${day}`))
      .map((job): Slot => ({ job, day, at: instantAt(day, timeOfJob(job, schedule), schedule.zone) }))
      .filter((slot) => slot.at > now && slot.at <= until && counted(slot, schedule, startedAt))
      .map(({ at }) => at)
      .sort();
    if (moments[0] !== undefined) return moments[0];
  }
  return null;
}

/** A slot that was passed over while the clock ran ahead of now was not really past. What was posted stays posted. */
const counts = ({ state, claimedAt }: SlotState, now: Instant): boolean =>
  state === 'sent' || state === 'claimed' || claimedAt <= now;

const isOn = (job: Job, day: LocalDay, { weeklyOn }: Schedule): boolean =>
  job !== 'weekly' || weekdayOf(day) === weeklyOn;

const counted = ({ job, at }: Slot, { weeklySince }: Schedule, startedAt: Instant): boolean =>
  at >= startedAt && (job !== 'weekly' || weeklySince === null || at >= weeklySince);

function timeOfJob(job: Job, { morningAt, eveningAt, weeklyAt }: Schedule): WallTime {
  return { backup: backupAt, morning: morningAt, season: morningAt, weekly: weeklyAt, evening: eveningAt }[job];
}

/** The moment from which a slot is no longer worth running late. */
function pastFrom({ job, day, at }: Slot, zone: string): Instant {
  const end = instantAt(addDays(day, 1), midnight, zone);
  if (job === 'weekly') return plusMs(at, dayMs);
  if (job !== 'morning') return end;
  const late = Math.max(msOf(instantAt(day, noon, zone)), msOf(at) + leastGraceMs);
  return instantOf(new Date(Math.min(late, msOf(end))));
}

function stepFor(slot: Slot, isClaimed: boolean, zone: string, now: Instant): Step {
  const lateMinutes = Math.max(0, Math.floor((msOf(now) - msOf(slot.at)) / minuteMs));
  const isPast = now >= pastFrom(slot, zone);
  if (isClaimed) return { do: 'check', slot, lateMinutes, mayPost: !isPast };
  if (!isPast) return { do: 'run', slot, lateMinutes };
  return { do: 'pass', slot, ...passing(slot.job) };
}

/** How a slot whose moment is past stands in the ledger. */
export function passing(job: Job): { readonly as: 'folded' | 'skipped'; readonly note: string } {
  switch (job) {
    case 'morning':
      return { as: 'folded', note: 'folded into the evening post' };
    case 'evening':
      return { as: 'folded', note: 'folded into the morning post' };
    case 'weekly':
      return { as: 'folded', note: 'folded into the next weekly post' };
    case 'season':
      return { as: 'folded', note: 'folded into the next notice' };
    case 'backup':
      return { as: 'skipped', note: 'missed' };
  }
}
