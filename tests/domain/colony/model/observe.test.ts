import { describe, expect, it } from 'vitest';
import {
  type Colony,
  type ColonyEvent,
  type Range,
  rangeOf,
  replay,
  saleableOf,
} from '../../../../src/domain/index.ts';
import { type Act, dayAt, dish, eventAt, full, glance, history, sent, tubOf } from './tub.ts';

const tub = tubOf();

const colonyBy = (events: readonly ColonyEvent[], on: number): Colony => {
  const { colony } = replay(tub, events, null, dayAt(on));
  if (colony === null) throw new Error('not counted');
  return colony;
};
const rangeBy = (events: readonly ColonyEvent[], on: number): Range => rangeOf(saleableOf(colonyBy(events, on)));
const widthOf = ({ low, high }: Range): number => high - low;

describe('a first count alone', () => {
  it('is close to what was counted by stripping out, and wide by the dish or at a glance, as not all show', () => {
    const [byFull, byDish, byGlance] = [full(50), dish(22), glance(22)].map((act) => rangeBy(history([0, act]), 0)) as [
      Range,
      Range,
      Range,
    ];
    expect(byFull.low).toBeGreaterThanOrEqual(45);
    expect(byFull.high).toBeLessThanOrEqual(58);
    expect(byFull.median).toBeGreaterThanOrEqual(50);
    // A glance may be a guess of them all: its low end is never over what was seen.
    expect(byGlance.low).toBeLessThanOrEqual(22);
    for (const range of [byDish, byGlance]) {
      expect(range.low).toBeGreaterThanOrEqual(14);
      expect(range.median).toBeGreaterThan(35);
      expect(range.median).toBeLessThan(70);
      expect(widthOf(range)).toBeGreaterThan(3 * widthOf(byFull));
    }
  });

  it('of none leaves a tub that young may still fill', () => {
    expect(rangeBy(history([0, full(0)]), 0)).toEqual({ low: 0, median: 0, high: 0 });
    const later = rangeBy(history([0, full(0)]), 120);
    expect(later.low).toBe(0);
    expect(later.high).toBeGreaterThan(5);
  });

  it('supposes young that fit the season: more in autumn than at the end of winter', () => {
    const youngOn = (on: number): number => {
      const { numbers } = colonyBy(history([on, full(60)]), on);
      return numbers.subarray(0, 12 * 128).reduce((sum, animals) => sum + animals, 0) / 128;
    };
    expect(youngOn(200)).toBeGreaterThan(1.5 * youngOn(0));
  });
});

describe('counts', () => {
  const first = history([0, full(60)]);

  it('narrow an estimate that widened since the last one, the surer the more', () => {
    const before = rangeBy(first, 90);
    expect(widthOf(before)).toBeGreaterThan(2 * widthOf(rangeBy(first, 0)));
    const [byFull, byDish, byGlance] = [full(before.median), dish(28), glance(28)].map((act) =>
      widthOf(rangeBy([...first, eventAt(90, 2, act)], 90)),
    ) as [number, number, number];
    expect(byFull).toBeLessThan(0.4 * widthOf(before));
    expect(byDish).toBeLessThan(0.95 * widthOf(before));
    expect(byGlance).toBeLessThan(widthOf(before));
    expect(byFull).toBeLessThan(byDish);
    expect(byDish).toBeLessThanOrEqual(byGlance);
  });

  it('at the dish become worth more once full counts told what share of a tub shows', () => {
    const shown = Array.from({ length: 6 }, (_, month) => [
      [30 * month, full(60)] as const,
      [30 * month, dish(15)] as const,
    ]).flat();
    const learnt = history(...shown, [179, dish(15)]);
    const unlearnt = history([0, full(60)], [179, dish(15)]);
    expect(Math.abs(rangeBy(learnt, 179).median - 60)).toBeLessThan(10);
    expect(widthOf(rangeBy(learnt, 179))).toBeLessThan(widthOf(rangeBy(unlearnt, 179)));
  });

  it('by removal passes are as sure as their catches fall', () => {
    const before = rangeBy(first, 90);
    const passes = (caught: readonly number[], saleable: number): Range =>
      rangeBy([...first, eventAt(90, 2, { of: 'passes', passes: caught, saleable })], 90);
    const steep = passes([40, 10], 53);
    expect(steep.low).toBeGreaterThanOrEqual(48);
    expect(steep.high).toBeLessThan(76);
    const flat = passes([18, 17], 200);
    expect(flat.low).toBeGreaterThanOrEqual(35);
    expect(widthOf(flat)).toBeGreaterThan(widthOf(steep));
    expect(flat.median).toBeGreaterThan(before.low);
  });

  it('of young move the young that are believed, not the animals that were counted themselves', () => {
    const boxes = (act: Act): number => {
      const { numbers } = colonyBy([...first, eventAt(60, 2, act)], 60);
      return numbers.subarray(4 * 128, 12 * 128).reduce((sum, animals) => sum + animals, 0) / 128;
    };
    const [few, many] = [5, 150].map((juveniles): Act => ({ of: 'young', saleable: 60, juveniles, berried: 4 })) as [
      Act,
      Act,
    ];
    expect(boxes(many)).toBeGreaterThan(2 * boxes(few));
    const saleable = [few, many].map((act) => rangeBy([...first, eventAt(60, 2, act)], 60)) as [Range, Range];
    expect(saleable[0]).toEqual(saleable[1]);
    const later = [few, many].map((act) => rangeBy([...first, eventAt(60, 2, act)], 150).median) as [number, number];
    expect(later[1]).toBeGreaterThan(later[0]);
  });
});

describe('a count that contradicts the model', () => {
  const counted = history([0, full(60)], [20, full(12)]);

  it('is believed more than the model', () => {
    const range = rangeBy(counted, 20);
    expect(range.low).toBeGreaterThanOrEqual(9);
    expect(range.high).toBeLessThanOrEqual(16);
  });

  it('is pointed out with what was expected and how unlikely it was; one that fits is not', () => {
    const { surprises } = replay(tub, counted, null, dayAt(20));
    expect(surprises).toHaveLength(1);
    const [surprise] = surprises;
    expect(surprise).toMatchObject({ entryId: 2, of: 'saleable', number: 12 });
    expect(surprise?.expected.low).toBeGreaterThan(40);
    expect(surprise?.chance).toBeLessThan(0.001);
    expect(replay(tub, history([0, full(60)], [20, full(58)]), null, dayAt(20)).surprises).toEqual([]);
  });

  it('leaves what the tub is like nearly as it was: something happened that is not in the model', () => {
    const meanOf = ({ numbers }: Colony, row: number): number =>
      numbers.subarray(row * 128, (row + 1) * 128).reduce((sum, value) => sum + Math.log(value), 0) / 128;
    for (const row of [17, 18, 19, 20]) {
      expect(
        Math.abs(meanOf(colonyBy(counted, 20), row) - meanOf(colonyBy(history([0, full(60)]), 20), row)),
      ).toBeLessThan(0.6);
    }
  });

  it('at a glance moves the estimate only as far as a glance is worth', () => {
    const before = rangeBy(history([0, full(60)]), 20);
    const after = rangeBy(history([0, full(60)], [20, glance(4)]), 20);
    expect(after.median).toBeLessThan(before.median);
    expect(after.median).toBeGreaterThan(25);
  });
});

describe('what is taken', () => {
  it('comes off every member exactly', () => {
    const before = saleableOf(colonyBy(history([0, full(60)]), 0));
    const after = saleableOf(colonyBy(history([0, full(60)], [0, sent(20)]), 0));
    after.forEach((left, member) => {
      expect(left).toBeCloseTo((before[member] ?? 0) - 20, 3);
    });
  });

  it('was there: a member that could not give it was wrong, and is not left below 0', () => {
    const events = history([0, full(30)], [1, sent(45)]);
    const { surprises } = replay(tub, events, null, dayAt(1));
    const left = saleableOf(colonyBy(events, 1));
    expect(Math.min(...left)).toBeGreaterThanOrEqual(0);
    // How many more than the 45 there were nobody knows.
    expect(rangeOf(left).low).toBe(0);
    expect(rangeOf(left).median).toBeLessThan(8);
    expect(rangeOf(left).high).toBeLessThan(40);
    expect(surprises).toMatchObject([{ entryId: 2, of: 'taken', number: 45 }]);
  });

  it('spares females with eggs when it is for a buyer, and takes them as they come when they died', () => {
    const berried = (events: readonly ColonyEvent[]): number =>
      colonyBy(events, 150)
        .numbers.subarray(12 * 128, 15 * 128)
        .reduce((sum, animals) => sum + animals, 0);
    const before = history([0, full(60)], [150, full(60)]);
    const spared = berried([...before, eventAt(150, 3, sent(20))]);
    const died = berried([...before, eventAt(150, 3, { of: 'loss', number: 20 })]);
    expect(spared).toBeCloseTo(berried(before), 1);
    expect(died).toBeLessThan(0.8 * berried(before));
  });

  it('and logged as found dead stands for deaths that were expected anyway', () => {
    const daysAfter = 60;
    const few = history(
      [0, full(60)],
      ...Array.from({ length: 4 }, (_, week) => [7 * week, { of: 'loss', number: 1 }] as const),
    );
    const gone = rangeBy(history([0, full(60)]), daysAfter).median - rangeBy(few, daysAfter).median;
    expect(gone).toBeGreaterThanOrEqual(0);
    expect(gone).toBeLessThan(4);
  });

  it('or moved in is added to every member, saleable animals at once and juveniles when they have grown', () => {
    const move = (stage: 'saleable' | 'juvenile'): ColonyEvent[] =>
      history([0, full(20)], [0, { of: 'moveIn', number: 15, stage }]);
    const alone = saleableOf(colonyBy(history([0, full(20)]), 0));
    saleableOf(colonyBy(move('saleable'), 0)).forEach((animals, member) => {
      expect(animals).toBeCloseTo((alone[member] ?? 0) + 15, 3);
    });
    expect(saleableOf(colonyBy(move('juvenile'), 0))).toEqual(alone);
    expect(rangeBy(move('juvenile'), 100).median).toBeGreaterThan(rangeBy(history([0, full(20)]), 100).median + 2);
  });
});
