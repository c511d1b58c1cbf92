import { logLoss, logMove, noteCount, seasons, tubsInUse } from '../src/desk/index.ts';
import { addDays, type LocalDay, spareOf, type Tub } from '../src/domain/index.ts';
import { breeds, type Colony, eyeShares, growDay, look } from './colony.ts';
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
/** Every tub is counted in full at first and every four months or so: what is seen by eye stands for as many as the last full counts say. */
const fullEveryDays = [105, 135] as const;
const moveEveryDays = 20;
const causes = [undefined, undefined, 'old age', 'failed moult', 'jumped'] as const;

export function openColonyYear(stage: Stage, water: WaterYear, seed: number): ColonyYear {
  const { desk, clock } = stage;
  const random = openRandom(seed);
  const colonies = new Map<string, Colony>();
  const countOn = new Map<string, LocalDay>();
  const fullOn = new Map<string, LocalDay>();
  const eyeShare = new Map<string, number>();
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
  const count = (tub: Tub, day: LocalDay): void => {
    const share = eyeShare.get(tub.name) ?? random.between(...eyeShares);
    eyeShare.set(tub.name, share);
    const isFull = (fullOn.get(tub.name) ?? day) <= day;
    const method = isFull ? 'full' : random.happens(0.6) ? 'dish' : 'glance';
    const at = { tempC: water.tempC(tub.name, day), eyeShare: share };
    clock.pass(isFull ? random.between(3, 5) : random.between(1, 2));
    const by = stage.by(tub.rack === 'K' ? 'owner' : 'partner');
    must(noteCount(desk, by, { tub: tub.name, ...look(of(tub.name), method, at, random), method }));
    countOn.set(tub.name, addDays(day, countEveryDays[tub.role] + random.whole(-3, 4)));
    if (isFull) fullOn.set(tub.name, addDays(day, random.whole(...fullEveryDays)));
  };

  const lose = (tub: string, number: number, cause: string | undefined): void => {
    must(logLoss(desk, stage.by(random.happens(0.6) ? 'owner' : 'partner'), { tub, number, cause }));
    add(tub, -number);
  };

  /** Animals ready for sale go to the selling tub of their line, where they are easy to catch. */
  const fillSellingTub = (selling: Tub): void => {
    const { line, tubs } = stockOfLine(stage, selling.lineName);
    const [fullest] = tubs
      .filter(({ tub: { role }, offSale }) => role !== 'selling' && role !== 'apart' && offSale === null)
      .map((stock) => ({ tub: stock.tub, spare: spareOf(stock, line) }))
      .sort((one, other) => other.spare - one.spare);
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
      if (of(tub.name).saleable >= number) lose(tub.name, number, cause);
    },
    evening(day) {
      const isOpen = seasons(desk).every(({ isClosedNow }) => !isClosedNow);
      for (const [index, tub] of tubsInUse(desk).entries()) {
        if ((countOn.get(tub.name) ?? day) <= day) count(tub, day);
        if (isOpen && tub.role === 'selling' && (dayNumber + 3 * index) % moveEveryDays === 0) fillSellingTub(tub);
      }
    },
  };
}
