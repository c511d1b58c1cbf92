import { openRandom, type Random } from '../../seed/random.ts';
import { addDays, type ColonyTub, day, daysBetween, type LocalDay } from '../../src/domain/index.ts';
import { anyNature, openAnimals } from './animals.ts';
import { anyFlow, openNumbers } from './numbers.ts';
import { openRoom, type Room, yearWave } from './room.ts';
import type { TrueTub } from './trueTub.ts';
import type { World } from './world.ts';

/** Day 0 of a business: what came before nobody logged. */
export const firstDay: LocalDay = day('2027-03-01');
/** The day so many days after. */
export const dayAt = (number: number): LocalDay => addDays(firstDay, number);

/** Days that the animals live before the couple begins to log. */
const pastDays = 420;

/** What a business truly is. */
export interface Opening {
  readonly tubs: readonly TrueTub[];
  /** The same tubs as the reckoning knows them. */
  readonly known: readonly ColonyTub[];
  tempOn(day: number): number;
}

/** A business as it stands on its first day, drawn from its seed: tubs of 16 to 32 L, stocked within the year and a half before. */
export function opened(world: World): Opening {
  const random = openRandom(world.seed);
  const room = openRoom(pastDays + world.days + 1, random);
  const saleableMm = random.pick([15, 15, 15, 17]);
  const litres = Array.from({ length: world.tubs }, () => random.pick([16, 20, 20, 24, 32]));
  const tubs = trueTubs(world, litres, saleableMm, random);
  tubs.forEach((tub) => {
    const founded = random.happens(0.7) ? 0 : random.whole(100, 330);
    for (let past = founded; past < pastDays; past++) {
      tub.live(room.tempC[past] ?? room.meanC);
      if (past % 14 === 0 && tub.saleable() > 60 && random.happens(0.5)) {
        tub.take(Math.floor(tub.saleable() * random.between(0.1, 0.4)), false);
      }
    }
  });
  const temps = thoughtTemps(world, room, random);
  return {
    tubs,
    known: litres.map((netLitres, nth) => ({ id: world.seed * 100 + nth + 1, netLitres, saleableMm, temps })),
    tempOn: (on) => room.tempC[pastDays + on] ?? room.meanC,
  };
}

function trueTubs(world: World, litres: readonly number[], saleableMm: number, random: Random): TrueTub[] {
  if (world.make === 'numbers') {
    const flow = anyFlow(random);
    return litres.map((own) => openNumbers(flow, own, random));
  }
  const nature = anyNature(random);
  return litres.map((own) => {
    const tub = openAnimals(nature, own, saleableMm, random);
    tub.put(random.whole(12, 30));
    return tub;
  });
}

/** The temperatures that the reckoning is given: the room's year to half a degree, or just a supposed one. */
function thoughtTemps(world: World, room: Room, random: Random): ColonyTub['temps'] {
  const off = 0.4 * random.normal();
  const [meanC, swingC, sdC] = world.thermometer ? [room.meanC + off, room.swingC, 1] : [21, 2.75, 1.6];
  return (on) => ({ tempC: meanC + swingC * yearWave(pastDays + daysBetween(firstDay, on)), sdC });
}
