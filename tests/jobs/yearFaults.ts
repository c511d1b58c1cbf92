import { addDays, dayOf, instantAt, type Job, jobs, type WallTime, weekdayOf } from '../../src/domain/index.ts';
import type { SimulatedYear } from './simulatedYear.ts';

/** Times of the posts by the settings of the first evening. */
const times: Record<Job, string> = {
  backup: '03:30',
  morning: '07:30',
  season: '07:30',
  weekly: '17:00',
  evening: '18:00',
};

/** Every slot from the first start until a month before the end, told without the planner. */
export function slotsOf({ zone, startedAt, end }: SimulatedYear): string[] {
  const slots: string[] = [];
  const last = addDays(dayOf(end, zone), -30);
  for (let day = dayOf(startedAt, zone); day <= last; day = addDays(day, 1)) {
    for (const job of jobs) {
      const isOn = job !== 'weekly' || weekdayOf(day) === 7;
      if (isOn && instantAt(day, times[job] as WallTime, zone) >= startedAt) slots.push(`${job}-${day}`);
    }
  }
  return slots;
}

/** What is wrong with a year: posts doubled, lost, too early or too late, slots without an end, left-out posts that no other speaks of. */
export function faultsOf(year: SimulatedYear): string[] {
  const { posts, ledger, startedAt, zone } = year;
  const faults: string[] = [];
  const posted = new Set<string>();
  for (const { key } of posts) {
    if (posted.has(key)) faults.push(`${key} is there twice`);
    posted.add(key);
  }
  const states = new Map(ledger.map(({ job, day, state }) => [`${job}-${day}`, state]));
  for (const key of slotsOf(year)) {
    const state = states.get(key);
    if (state === undefined || state === 'claimed') faults.push(`${key} was never settled`);
    else if (key.startsWith('backup')) continue;
    else if ((state === 'sent') !== posted.has(key))
      faults.push(`${key} is ${state} but ${posted.has(key) ? '' : 'not '}there`);
    else if (state === 'skipped' && !key.startsWith('season')) faults.push(`${key} was skipped`);
  }
  for (const { job, day } of ledger) {
    if (instantAt(day, times[job] as WallTime, zone) < startedAt)
      faults.push(`${job}-${day} was before the first start`);
  }
  return [...faults, ...untold(year)];
}

/** Posts that were left out and that no later one speaks of, those after the last post aside. */
function untold({ posts, ledger }: SimulatedYear): string[] {
  const told = new Set(posts.flatMap((post) => post.told));
  const lastAt = posts.at(-1)?.at ?? '';
  return ledger
    .filter(({ job, state, doneAt }) => state === 'folded' && job !== 'season' && (doneAt ?? '') < lastAt)
    .map(({ job, day }) => `${job}-${day}`)
    .filter((key) => !told.has(key))
    .map((key) => `${key} was left out and nobody was told`);
}
