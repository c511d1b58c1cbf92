import {
  addDays,
  type Business,
  type LineBags,
  type LocalDay,
  latestOnTheWay,
  planBags,
  type Way,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk } from '../desk.ts';
import { linesOf } from '../find.ts';
import { bagWaterOf, hoursOnTheWay } from './bagWater.ts';
import { type Destination, onItsWay } from './places.ts';

/** The bags of a parcel, line by line, in ordinary bags: for its hours on the way and the forecasts that are known of it. */
export function parcelBags(desk: Desk, { items, ...to }: BookedSale, day: LocalDay): LineBags[] {
  const business = businessOf(desk);
  const lines = linesOf(desk);
  return items.flatMap((item) => {
    const line = lines.find(({ id }) => item.of === 'line' && id === item.id);
    if (line === undefined) return [];
    const { tempC, ph, khDkh } = bagWaterOf(desk, business, line.id);
    const plan = planBags({
      ...{ kind: 'ordinary', animals: item.number + item.extras, lengthMm: line.saleableMm, ph, khDkh },
      hours: hoursOnTheWay(business),
      way: wayOf(desk, business, day, to, tempC),
    });
    return [{ line: line.name, plan }];
  });
}

/** The air on a parcel's way by the forecasts for its days, the delay too; where none is known, the tubs' own temperature. */
function wayOf(desk: Desk, { transitDays, slackDays }: Business, day: LocalDay, to: Destination, startC: number): Way {
  const lastDay = addDays(day, transitDays + slackDays + 1);
  const weather = latestOnTheWay({ day, lastDay, weather: onItsWay(desk.store.weather.weather(day, lastDay), to) });
  if (weather.length === 0) return { startC, warmC: startC, coldC: startC };
  return {
    startC,
    warmC: Math.max(...weather.map(({ highC }) => highC)),
    coldC: Math.min(...weather.map(({ lowC }) => lowC)),
  };
}
