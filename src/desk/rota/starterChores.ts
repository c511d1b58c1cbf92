import type { By, Chore } from '../../domain/index.ts';
import { businessOf, type Desk, log } from '../desk.ts';

type Starter = Pick<Chore, 'name' | 'act' | 'everyDays' | 'minutes' | 'scope'>;

/** What a small rack needs, to be edited by its keepers. Intervals and minutes: common practice, no source. */
const starters = (changeIntervalDays: number): readonly Starter[] => [
  { name: 'look-round', act: 'own', everyDays: 1, minutes: 5, scope: 'business' },
  { name: 'feed', act: 'own', everyDays: 2, minutes: 6, scope: 'rack' },
  { name: 'top-up', act: 'topup', everyDays: 4, minutes: 10, scope: 'rack' },
  { name: 'water change', act: 'change', everyDays: changeIntervalDays, minutes: 6, scope: 'tub' },
  { name: 'test nitrate', act: 'reading', everyDays: 28, minutes: 8, scope: 'tub' },
  { name: 'front glass', act: 'own', everyDays: 14, minutes: 1, scope: 'tub' },
  { name: 'leaf top-up', act: 'own', everyDays: 30, minutes: 1, scope: 'tub' },
  { name: 'pest look by torch', act: 'own', everyDays: 14, minutes: 5, scope: 'rack' },
  {
    name: 'air-line, check valve, drip loop, RCD test',
    act: 'own',
    everyDays: 90,
    minutes: 20,
    scope: 'business',
  },
  { name: 'pump foam', act: 'own', everyDays: 30, minutes: 2, scope: 'business' },
  { name: 'air stones', act: 'own', everyDays: 180, minutes: 15, scope: 'rack' },
];

/** The set is the program's own entry, so that undoing one's last entry undoes the tubs and not the chores that came with them. */
const planter = { userId: 'berried', name: 'Berried' };

/** Plants the starting set with the first tub, unless a chore was ever planned: what people took off or undid stays away. */
export function plantChores(desk: Desk, by: By): void {
  if (desk.store.chores.everPlanned()) return;
  const planted = starters(businessOf(desk).changeIntervalDays);
  log(
    desk,
    { ...planter, key: `${by.key}#chores` },
    'chore',
    `planned ${planted.length} chores to start with`,
    (entry, now) => {
      for (const chore of planted)
        desk.store.chores.addChore(entry, { ...chore, userId: null, off: false, addedAt: now });
    },
  );
}
