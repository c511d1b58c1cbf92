import type { By, Chore } from '../../domain/index.ts';
import { businessOf, type Desk, log } from '../desk.ts';

type Starter = Pick<Chore, 'name' | 'everyDays' | 'minutes' | 'scope'> &
  Partial<Pick<Chore, 'act' | 'season' | 'dependsOn'>>;

/**
 * What racks of small, unheated, air-driven tubs need, to be edited by their keepers. Common practice, no source, unless a line says
 * otherwise; minutes are a keeper's at a rack of ten.
 */
const starters = (changeIntervalDays: number): readonly Starter[] => [
  // Bubbles, deaths, temperature: the one look that cannot wait.
  { name: 'look-round', everyDays: 1, minutes: 5, scope: 'business' },
  // Two to three times a week, less in cool water; what is left after two hours was too much.
  { name: 'feed', everyDays: 2, minutes: 6, scope: 'rack', dependsOn: 'warmth' },
  { name: 'powder for young', everyDays: 3, minutes: 1, scope: 'tub', dependsOn: 'young' },
  { name: 'top-up', act: 'topup', everyDays: 4, minutes: 10, scope: 'rack' },
  { name: 'water change', act: 'change', everyDays: changeIntervalDays, minutes: 6, scope: 'tub' },
  { name: 'test nitrate', act: 'reading', everyDays: 28, minutes: 8, scope: 'tub' },
  { name: 'test GH, KH, TDS of the tap', everyDays: 30, minutes: 5, scope: 'business' },
  { name: 'front glass', everyDays: 14, minutes: 1, scope: 'tub' },
  // A leaf of a tub of 25 L is gone in one to two months.
  { name: 'leaf top-up', everyDays: 30, minutes: 1, scope: 'tub' },
  // Moss grows in the warm months; a third at a time leaves the young their cover.
  { name: 'moss trim', everyDays: 42, minutes: 10, scope: 'tub', season: 'warm' },
  { name: 'pest look by torch', everyDays: 14, minutes: 5, scope: 'rack' },
  // Each line about monthly where two are kept; a line of its own colour does not stay so by itself.
  { name: 'grade a line', everyDays: 14, minutes: 20, scope: 'business' },
  // Look for young: when to, by the temperature at which the eggs are carried, see `hatchDays`.
  { name: 'hatch due', everyDays: 30, minutes: 2, scope: 'tub', dependsOn: 'hatch' },
  // A look over all animals before the tub goes back on sale.
  { name: 'end of quarantine', everyDays: 30, minutes: 5, scope: 'tub', dependsOn: 'hold' },
  // While the terms of the guarantee let a buyer report what arrived.
  { name: 'watch for claims', everyDays: 1, minutes: 3, scope: 'business', dependsOn: 'claim' },
  // Stones clog in six to nine months.
  { name: 'air stones', everyDays: 180, minutes: 15, scope: 'rack' },
  { name: 'pump foam', everyDays: 30, minutes: 2, scope: 'business' },
  // Diaphragms are the usual fault of air pumps, and last two to five years.
  { name: 'spare diaphragm at hand', everyDays: 365, minutes: 5, scope: 'business' },
  { name: 'air-line, check valve, drip loop', everyDays: 90, minutes: 20, scope: 'business' },
  // Makers of residual-current devices ask for the test button about monthly to quarterly: read their leaflet.
  { name: 'RCD test button', everyDays: 30, minutes: 2, scope: 'business' },
];

/** The set is the program's own entry, so that undoing one's last entry undoes the tubs and not the chores that came with them. */
export const planter = { userId: 'berried', name: 'Berried' };

/** Plants the starting set with the first tub, unless a chore was ever planned: what people took off or undid stays away. */
export function plantChores(desk: Desk, by: By): void {
  if (desk.store.chores.everPlanned()) return;
  const planted = starters(businessOf(desk).changeIntervalDays);
  const more = { act: 'own', season: 'all', dependsOn: 'interval', userId: null, off: false } as const;
  log(
    desk,
    { ...planter, key: `${by.key}#chores` },
    'chore',
    `planned ${planted.length} chores to start with`,
    (entry, now) => {
      for (const chore of planted) desk.store.chores.addChore(entry, { ...more, ...chore, addedAt: now });
    },
  );
}
