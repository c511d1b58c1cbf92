import { logCount, logLoss, logMove, seasons, tubsInUse } from '../src/desk/index.ts';
import { addDays, type LocalDay, spareOf, type Tub, type TypedCountMethod } from '../src/domain/index.ts';
import { berriedIn, breeds, type Colony, countError, growDay, seen } from './colony.ts';
import { openRandom } from './random.ts';
import { must, type Stage, stockOfLine } from './stage.ts';
import type { WaterYear } from './waterYear.ts';

/** The animals of the year: how they grow, and how the two count, move and lose them. */
export interface ColonyYear {
  pass(day: LocalDay): void;
  /** Animals found dead on the morning's look-round. */
  morning(): void;
  /** Counts, and moves from full tubs to those for sale. */
  evening(day: LocalDay): void;
  /** Animals that came into a tub from elsewhere or left it. */
  add(tub: string, number: number): void;
  /** Animals that a new tub begins with. */
  settle(tub: string, number: number): void;
  /** Whether a line keeps its promises when it has so many fewer to give. */
  bears(line: string, fewer: number): boolean;
  lose(tub: string, number: number, cause: string | undefined): void;
}

const countEveryDays = { breeding: 24, raising: 24, selling: 14, apart: 14 } as const;
const moveEveryDays = 20;
const causes = [undefined, undefined, 'old age', 'failed moult', 'jumped'] as const;

export function openColonyYear(stage: Stage, water: WaterYear, seed: number): ColonyYear {
  const { desk, clock } = stage;
  const random = openRandom(seed);
  const colonies = new Map<string, Colony>();
  const countOn = new Map<string, LocalDay>();
  let dayNumber = 0;

  const of = (tub: string): Colony => {
    const known = colonies.get(tub);
    if (known !== undefined) return known;
    const started = { saleable: random.between(48, 72), juveniles: random.between(20, 45) };
    colonies.set(tub, started);
    return started;
  };
  const add = (tub: string, number: number): void => {
    const colony = of(tub);
    colony.saleable = Math.max(0, colony.saleable + number);
  };
  const bears = (line: string, fewer: number): boolean => stockOfLine(stage, line).free >= fewer;
  const inBooks = (tub: Tub) => {
    const { line, tubs } = stockOfLine(stage, tub.lineName);
    const stock = tubs.find((each) => each.tub.id === tub.id);
    if (stock === undefined) throw new Error(`tub ${tub.name} is not in the stock of ${tub.lineName}`);
    return { line, stock, spare: spareOf(stock, line) };
  };

  const count = (tub: Tub, day: LocalDay, method: TypedCountMethod): void => {
    const colony = of(tub.name);
    const saleable = seen(colony.saleable, countError[method], random);
    const { line, stock, spare } = inBooks(tub);
    const after = spareOf({ ...stock, saleable }, line);
    // Nobody believes a glance that would break a promise: it is counted again when the parcels have left.
    if (after < spare && !bears(tub.lineName, spare - after)) {
      countOn.set(tub.name, addDays(day, 3));
      return;
    }
    clock.pass(random.between(2, 4));
    must(
      logCount(desk, stage.by(tub.rack === 'K' ? 'owner' : 'partner'), {
        tub: tub.name,
        saleable,
        juveniles: seen(colony.juveniles, 0.2, random),
        berried: berriedIn(colony, water.tempC(tub.name, day)),
        method,
      }),
    );
    countOn.set(tub.name, addDays(day, countEveryDays[tub.role] + random.whole(-3, 4)));
  };

  const lose = (tub: string, number: number, cause: string | undefined): void => {
    must(logLoss(desk, stage.by(random.happens(0.6) ? 'owner' : 'partner'), { tub, number, cause }));
    add(tub, -number);
  };

  /** Animals ready for sale go to the selling tub of their line, where they are easy to catch. */
  const fillSellingTub = (selling: Tub): void => {
    const [fullest] = tubsInUse(desk)
      .filter(({ lineId, role }) => lineId === selling.lineId && role !== 'selling' && role !== 'apart')
      .map((tub) => ({ tub, ...inBooks(tub) }))
      .filter(({ stock }) => stock.offSale === null)
      .sort((a, b) => b.spare - a.spare);
    const number = Math.min(18, Math.floor((fullest?.spare ?? 0) * 0.4));
    if (fullest === undefined || number < 6 || !bears(selling.lineName, number)) return;
    clock.pass(random.between(8, 15));
    must(logMove(desk, stage.by('owner'), { from: fullest.tub.name, to: selling.name, number }));
    add(fullest.tub.name, -number);
    add(selling.name, number);
  };

  return {
    add,
    bears,
    lose,
    settle(tub, number) {
      colonies.set(tub, { saleable: number, juveniles: 0 });
    },
    pass(day) {
      dayNumber += 1;
      for (const { name, role } of tubsInUse(desk)) growDay(of(name), water.tempC(name, day), breeds[role]);
    },
    morning() {
      if (!random.happens(0.12)) return;
      const [first, ...rest] = tubsInUse(desk).filter(({ role }) => role !== 'apart');
      if (first === undefined) return;
      const tub = random.pick([first, ...rest]);
      const number = random.happens(0.8) ? 1 : 2;
      const cause = random.pick(causes);
      const isThere = (inBooks(tub).stock.saleable ?? 0) >= number;
      if (isThere && bears(tub.lineName, number)) lose(tub.name, number, cause);
    },
    evening(day) {
      const isOpen = seasons(desk).every(({ isClosedNow }) => !isClosedNow);
      for (const [index, tub] of tubsInUse(desk).entries()) {
        if (!countOn.has(tub.name)) count(tub, day, tub.role === 'apart' ? 'full' : index % 3 === 0 ? 'full' : 'dish');
        else if ((countOn.get(tub.name) ?? day) <= day) count(tub, day, random.happens(0.4) ? 'dish' : 'glance');
        if (isOpen && tub.role === 'selling' && (dayNumber + 3 * index) % moveEveryDays === 0) fillSellingTub(tub);
      }
    },
  };
}
