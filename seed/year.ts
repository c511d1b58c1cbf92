import { addDays, type LocalDay } from '../src/domain/index.ts';
import { openChoresYear } from './choresYear.ts';
import { openColonyYear } from './colonyYear.ts';
import { openCostsYear } from './costsYear.ts';
import { found } from './founding.ts';
import { openIncidents } from './incidents.ts';
import { sellOfLastDays } from './lastDays.ts';
import { openParcelsYear } from './parcelsYear.ts';
import { openRandom } from './random.ts';
import { openRoom } from './room.ts';
import { openSalesYear } from './salesYear.ts';
import type { Stage } from './stage.ts';
import { openWaterYear } from './waterYear.ts';

/** What the year came to. */
export interface YearCounts {
  readonly sales: number;
  readonly parcels: number;
}

/**
 * Lives the year of the demo business day by day, from `first` to `last`, each day in the order in which it happens.
 * @yields each day when it is over
 * @param seed the same seed gives the same year; each part draws from a source of its own, so that they do not disturb each other
 */
export function* liveYear(
  stage: Stage,
  days: { readonly first: LocalDay; readonly last: LocalDay },
  seed: number,
): Generator<LocalDay, YearCounts, undefined> {
  const { clock } = stage;
  const room = openRoom(openRandom(seed), days.first, days.last);
  const water = openWaterYear(stage, room, seed + 1);
  const colonies = openColonyYear(stage, water, seed + 2);
  const sales = openSalesYear(stage, seed + 3);
  const parcels = openParcelsYear(stage, room, colonies, seed + 4);
  const chores = openChoresYear(stage, seed + 5);
  const incidents = openIncidents(stage, water, colonies);
  const costs = openCostsYear(stage, seed + 6);

  found(stage);
  for (let day = days.first; day <= days.last; day = addDays(day, 1)) {
    water.pass(day);
    colonies.pass(day);
    clock.goTo(day, '07:10');
    chores.morning(day);
    colonies.morning();
    clock.goTo(day, '08:20');
    const sentBefore = parcels.sent();
    parcels.morning(day);
    clock.goTo(day, '12:40');
    sellOfLastDays(stage, sales, day);
    sales.afternoon(day);
    clock.goTo(day, '17:30');
    water.evening(day);
    incidents.evening(day);
    chores.evening(day);
    colonies.evening(day);
    clock.goTo(day, '20:45');
    parcels.evening(day);
    costs.evening(day, parcels.sent() - sentBefore);
    yield day;
  }
  return { sales: sales.booked(), parcels: parcels.sent() };
}
