import type { By, Chore } from '../../domain/index.ts';
import { type Desk, log } from '../desk.ts';
import { planter } from './starterChores.ts';

type Check = Pick<Chore, 'name' | 'act' | 'minutes' | 'userId'>;

/** One partner looks in the morning, another in the evening, so that both see the tub; alone one does both. */
function checks(desk: Desk): readonly Check[] {
  const [first, second] = desk.store.settings.partners();
  const each = second === undefined ? [null, null] : [first?.userId ?? null, second.userId];
  return [
    { name: 'test after trouble', act: 'test', minutes: 5, userId: null },
    { name: 'morning look', act: 'own', minutes: 2, userId: each[0] ?? null },
    { name: 'evening look', act: 'own', minutes: 2, userId: each[1] ?? null },
  ];
}

/** Plants the checks of tubs in trouble with the first trouble: what people changed, took off or undid stays as they want it. */
export function plantTroubleChores(desk: Desk, by: By): void {
  if (desk.store.chores.everPlannedFor('trouble')) return;
  const taken = new Set(desk.store.chores.chores().map(({ name }) => name.toLowerCase()));
  const planted = checks(desk).filter(({ name }) => !taken.has(name));
  const more = { everyDays: 1, scope: 'tub', season: 'all', dependsOn: 'trouble', off: false } as const;
  const planting = { ...planter, key: `${by.key}#checks` };
  log(desk, planting, 'chore', `planned ${planted.length} checks for tubs in trouble`, (entry, now) => {
    for (const chore of planted) desk.store.chores.addChore(entry, { ...more, ...chore, addedAt: now });
  });
}
