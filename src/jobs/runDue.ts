import { businessOf, type Desk, passSlot, settingsSince, slotsSince, startedAt } from '../desk/index.ts';
import { addDays, dayOf, type Instant } from '../domain/index.ts';
import { daysLookedBack, type PlanQuestion, plan, type Step } from './planner.ts';
import { checkSlot, type JobNeeds, runSlot } from './runSlot.ts';

/** Settings that say when the weekly post comes. */
const weeklySettings = ['weeklyOn', 'weeklyAt'];

/** What the planner goes by at a moment. */
export function planQuestion(desk: Desk, now: Instant): PlanQuestion {
  const { zone, morningAt, eveningAt, weeklyOn, weeklyAt } = businessOf(desk);
  return {
    schedule: { zone, morningAt, eveningAt, weeklyOn, weeklyAt, weeklySince: settingsSince(desk, weeklySettings) },
    ledger: slotsSince(desk, addDays(dayOf(now, zone), -daysLookedBack)),
    startedAt: startedAt(desk),
    now,
  };
}

/**
 * Runs everything that is due and not done, one after another. A job that breaks is logged and stands in nobody's way.
 * @returns how many posts were sent
 */
export async function runDue(now: Instant, needs: JobNeeds): Promise<{ readonly posts: number }> {
  let posts = 0;
  for (const step of plan(planQuestion(needs.desk, now))) {
    try {
      if (await take(step, needs, now)) posts += 1;
    } catch (error) {
      needs.log.error({ err: error, job: step.slot.job, day: step.slot.day }, 'a job broke');
    }
  }
  return { posts };
}

async function take(step: Step, needs: JobNeeds, now: Instant): Promise<boolean> {
  const { slot } = step;
  switch (step.do) {
    case 'run':
      return runSlot(needs, slot, step.lateMinutes, now);
    case 'check':
      return checkSlot(needs, slot, step);
    case 'pass':
      passSlot(needs.desk, slot.job, slot.day, step.as, now, step.note);
      return false;
  }
}
