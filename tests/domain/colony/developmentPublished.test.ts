import { describe, expect, it } from 'vitest';
import {
  berriedShare,
  broodSize,
  crowding,
  dailyDeath,
  daysToSaleable24C,
  eggDaysFactor,
  eggProgressPerDay,
  femaleShare,
  growthPerDay,
  growthSpread,
  incubationDays,
  lifeDays,
  matureMm,
} from '../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../published/table.ts';

type Row = Readonly<Record<string, string>>;

// The sources stand in the files.
const eggDays = publishedTable('eggDays.csv').rows;
const orders = publishedTable('temperatureOrders.csv').rows;
const shares = publishedTable('femaleShare.csv').rows;
const life = publishedTable('lifeHistory.csv').rows;
const moults = publishedTable('moultIntervals.csv').rows;
const broods = publishedTable('broodSize.csv').rows;
const cool = publishedTable('breedingCool.csv').rows;

const daysAt = (tempC: number): number => 1 / eggProgressPerDay(tempC);
const lifeRow = (source: string, what: string): Row => {
  const found = life.find((row) => row['source'] === source && row['what'] === what);
  if (found === undefined) throw new Error(`no ${what} of ${source}`);
  return found;
};

it('is checked against whole tables', () => {
  const sizes = [eggDays, orders, shares, life, moults, broods, cool].map(({ length }) => length);
  expect(sizes).toEqual([8, 20, 6, 6, 2, 2, 2]);
});

describe('the days eggs are carried', () => {
  const of = (species: string): Row[] => eggDays.filter((row) => row['species'] === species);

  it.each(of('davidi').filter((row) => row['fromC'] === row['toC']))('are $days at $fromC °C', (row) => {
    expect(daysAt(numberIn(row, 'fromC'))).toBeCloseTo(numberIn(row, 'days'), 6);
  });

  it('hold 15 days somewhere from 25 to 28 °C (Mahmoud et al. 2020)', () => {
    const [row] = of('davidi').filter(({ fromC, toC }) => fromC !== toC);
    if (row === undefined) throw new Error('no range');
    expect(daysAt(numberIn(row, 'fromC'))).toBeGreaterThan(numberIn(row, 'days'));
    expect(daysAt(numberIn(row, 'toC'))).toBeLessThan(numberIn(row, 'days'));
  });

  it('hold the related Caridina japonica at 20 °C in their band, and slow down as it does', () => {
    const [cooler, warmer] = of('Caridina japonica');
    if (cooler === undefined || warmer === undefined) throw new Error('no rows');
    const ours = daysAt(20);
    expect(numberIn(cooler, 'days')).toBeGreaterThan(ours * eggDaysFactor.low);
    expect(numberIn(cooler, 'days')).toBeLessThan(ours * eggDaysFactor.high);
    const slowing = numberIn(cooler, 'days') / numberIn(warmer, 'days');
    expect(daysAt(20) / daysAt(25.5) / slowing).toBeGreaterThan(0.8);
    expect(daysAt(20) / daysAt(25.5) / slowing).toBeLessThan(1.25);
  });

  it('are within a fifth of a large relative at 24 °C', () => {
    const [row] = of('Macrobrachium rosenbergii');
    if (row === undefined) throw new Error('no rows');
    expect(Math.abs(daysAt(24) / numberIn(row, 'days') - 1)).toBeLessThan(0.2);
  });

  it('end where females lose all eggs (Tropea et al. 2015)', () => {
    expect(incubationDays(32)).toBeNull();
    expect(incubationDays(31.99)).toBeCloseTo(12, 1);
    // The band of the loss holds both of its experiments: eggs brought to 32 °C hatch, those of females grown up there do not.
    const { low, median, high } = dailyDeath('egg', 32);
    const kept = (hazard: number): number => Math.exp(-hazard * daysAt(32));
    expect(kept(low)).toBeGreaterThan(0.65);
    expect(kept(median)).toBeLessThan(0.06);
    expect(kept(high)).toBeLessThan(0.01);
  });
});

describe('what the abstracts put in order', () => {
  const measures: Readonly<Record<string, (at: number) => number>> = {
    eggDays: daysAt,
    growthFirstDays: growthPerDay,
    berried: berriedShare,
    females: (tempC) => femaleShare(tempC).median,
    growthAtDensity: crowding,
    young: (mm) => broodSize(mm).median,
    death: (tempC) => dailyDeath('juvenile', tempC).median,
  };

  it.each(orders)('$source: $what is more at $more than at $less', (row) => {
    const measure = measures[row['what'] ?? ''];
    if (measure === undefined) throw new Error(`nothing measures ${row['what']}`);
    expect(measure(numberIn(row, 'more'))).toBeGreaterThan(measure(numberIn(row, 'less')));
  });

  it('tropea: nobody keeps eggs at 32 °C', () => {
    expect(berriedShare(32)).toBe(0);
  });

  it('tropea: young and their survival are alike at 24 and 28 °C, and survival is high at 32 °C for 90 days', () => {
    const lives = (tempC: number): number => Math.exp(-90 * dailyDeath('juvenile', tempC).median);
    expect(lives(24)).toBe(lives(28));
    expect(lives(32)).toBeGreaterThan(0.6);
  });

  it('tropea: weight by day 90 is alike at 24, 28 and 32 °C', () => {
    for (const tempC of [24, 28, 32]) expect(Math.abs(growthPerDay(tempC) - 1)).toBeLessThanOrEqual(0.1 + 1e-9);
  });
});

describe('cool water', () => {
  it.each(cool)('fits what is known of $species', (row) => {
    // A relative carries none below its limit: here few do. Where the season is only longer, some do from a little above.
    if (row['noneUnderC'] !== '') expect(berriedShare(numberIn(row, 'noneUnderC'))).toBeLessThanOrEqual(0.15);
    else expect(berriedShare(numberIn(row, 'someFromC') + 0.5)).toBeGreaterThan(0);
  });
});

describe('growth', () => {
  it.each(moults)('slows to 15 °C more than the moults of $species, as they also grow less per moult', (row) => {
    const perTen = (numberIn(row, 'days15C') / numberIn(row, 'days30C')) ** (10 / 15);
    expect(perTen).toBeGreaterThan(1.6);
    expect(perTen).toBeLessThan(1.8);
    const ours = growthPerDay(25) / growthPerDay(15);
    expect(ours).toBeGreaterThan(perTen);
    expect(ours).toBeLessThan(perTen * 2.5);
    // And its band holds twice the moults' slope.
    const { low, high } = growthSpread(15);
    expect(growthPerDay(25) / high).toBeLessThan(2 * perTen);
    expect(growthPerDay(25) / low).toBeGreaterThan(2 * perTen);
  });

  it('to maturity spans the laboratory and the warm stream', () => {
    const { low, median, high } = daysToSaleable24C(matureMm);
    const stream = numberIn(lifeRow('stream', 'firstEggs'), 'days');
    const laboratory = numberIn(lifeRow('tropea', 'firstEggsAtMost'), 'days');
    expect(low).toBeLessThan(numberIn(lifeRow('nur', 'mature'), 'days'));
    expect(median).toBeLessThan(laboratory);
    expect(high).toBeGreaterThan(stream);
  });

  it.each(['nur', 'mahmoud'])('is mature near the 75 days of %s at their temperature', (source) => {
    const row = lifeRow(source, 'mature');
    const middle = (numberIn(row, 'fromC') + numberIn(row, 'toC')) / 2;
    const ours = daysToSaleable24C(matureMm).median / growthPerDay(middle);
    expect(Math.abs(ours / numberIn(row, 'days') - 1)).toBeLessThan(0.1);
  });
});

describe('a life', () => {
  it('is what is left of 12 and of 21 months after the first eggs', () => {
    const days = (what: string): number => numberIn(lifeRow('stream', what), 'days');
    expect(Math.abs(lifeDays.low - (days('lifeInStream') - days('firstEggs')))).toBeLessThan(2);
    expect(Math.abs(lifeDays.high - (days('lifeInTanks') - 90))).toBeLessThan(2);
    expect(lifeDays.median).toBeCloseTo(Math.sqrt(lifeDays.low * lifeDays.high), -1);
  });
});

describe('a brood', () => {
  it.each(broods)('is $young of a female of $femaleMm mm, within 5 %', (row) => {
    expect(Math.abs(broodSize(numberIn(row, 'femaleMm')).median / numberIn(row, 'young') - 1)).toBeLessThan(0.05);
  });

  it('holds the popular 20 to 30 for young females', () => {
    const { low, high } = broodSize(17);
    expect(low).toBeLessThan(20);
    expect(high).toBeGreaterThan(30);
  });
});

describe('the share of females', () => {
  const serezli = shares.filter((row) => row['source'] === 'serezli');

  it.each(serezli)('holds $printed at $tempC °C read as a share and read as a ratio', (row) => {
    const printed = numberIn(row, 'printed');
    const { low, high } = femaleShare(numberIn(row, 'tempC'));
    for (const share of [printed, printed / (1 + printed)]) {
      expect(share).toBeGreaterThan(low - 0.005);
      expect(share).toBeLessThan(high + 0.005);
    }
  });

  it('holds the warm stream in between', () => {
    const stream = shares.filter((row) => row['source'] === 'stream').map((row) => numberIn(row, 'printed'));
    for (const share of stream) {
      expect(share).toBeGreaterThan(femaleShare(23).low);
      expect(share).toBeLessThanOrEqual(femaleShare(23).high);
    }
  });
});
