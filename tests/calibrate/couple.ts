import { openRandom } from '../../seed/random.ts';
import type { ColonyEvent, Instant, TypedCountMethod } from '../../src/domain/index.ts';
import { openEyes } from './eyes.ts';
import { poisson } from './numbers.ts';
import { dayAt, type Opening, opened } from './opening.ts';
import type { Estimate, Figures, OpenReckoner } from './reckoner.ts';
import type { Habit, Trade, World } from './world.ts';

/** Breeders held back per tub. */
const holdBack = 10;
/** What cannot be caught any more: a tub is not netted empty. */
const leftAlone = 4;
/** Of animals taken for a parcel, so many more go astray, and nobody logs them. */
const astray = 0.05;

/** Every so many days a tub is counted in this way; the first of a list is how tubs are counted at the beginning. */
const counting: Record<
  Habit,
  readonly [readonly [number, TypedCountMethod], ...(readonly [number, TypedCountMethod])[]]
> = {
  'full monthly': [[30, 'full']],
  'full quarterly': [[91, 'full']],
  'full half-yearly, dish': [
    [182, 'full'],
    [14, 'dish'],
  ],
  'full, dish, glance': [
    [120, 'full'],
    [21, 'dish'],
    [10, 'glance'],
  ],
  'dish fortnightly': [[14, 'dish']],
  'glance fortnightly': [[14, 'glance']],
  'full yearly': [[365, 'full']],
};

/** How many times the usual number of orders comes in, by month from 0 on. */
const demand: Record<Trade, (month: number) => number> = {
  steady: () => 1,
  'heavy spring': (month) => (month >= 3 && month < 6 ? 3.5 : 0.6),
  'closed in winter': (month) => (month >= 10.5 || month < 1.5 ? 0 : 1.3),
};

/** What was said on a day, and what was true. */
export interface Moment {
  readonly figures: Figures;
  readonly tubs: readonly number[];
  readonly total: number;
  readonly free: number;
  /** Days since the last full count of each tub; null: never. */
  readonly sinceFull: readonly (number | null)[];
}

/** A look twelve weeks ahead, by the sales that then came, and what came. */
export interface Look {
  readonly said: Estimate;
  readonly total: number;
}

/** What a business came to. */
export interface Played {
  readonly moments: readonly Moment[];
  readonly looks: readonly Look[];
  /** Sales that were promised, and those that could not be filled from what was over the breeders. */
  readonly sales: number;
  readonly unfilled: number;
}

const lookDays = 84;

/** Plays a business: the couple counts, sells what the reckoning says is free, sends, and logs what a couple would log. */
export function play(world: World, open: OpenReckoner): Played {
  const { tubs, known, tempOn }: Opening = opened(world);
  const reckoner = open(known);
  const chance = openRandom(world.seed ^ 0x1b873593);
  const buyers = openRandom(world.seed ^ 0x5bd1e995);
  const eyes = openEyes(tubs.length, chance);
  const lastFull = new Map<number, number>();
  const promises: { number: number; total: number; on: number }[] = [];
  const moments: Moment[] = [];
  const looks: Look[] = [];
  const looking: { ahead: NonNullable<Figures['ahead']>; until: number; sold: number }[] = [];
  let [entryId, sold, sales, unfilled] = [0, 0, 0, 0];
  let spareThought: readonly number[] = tubs.map(() => 0);
  const usualOrders = (2.2 * Math.exp(0.6 * buyers.normal()) * tubs.length) / 12;

  const stamp = (on: number): Pick<ColonyEvent, 'at' | 'day' | 'entryId'> => {
    entryId += 1;
    return { at: `${dayAt(on)}T12:00:00.000Z` as Instant, day: dayAt(on), entryId };
  };
  const saleable = (): number[] => tubs.map((tub) => tub.saleable());
  const spare = (): number => saleable().reduce((sum, number) => sum + Math.max(0, number - holdBack), 0);
  const promised = (): number => promises.reduce((sum, { total }) => sum + total, 0);

  const count = (nth: number, on: number, method: TypedCountMethod): void => {
    const tub = tubs[nth];
    if (tub === undefined) return;
    if (method === 'full') lastFull.set(nth, on);
    reckoner.log(nth, { ...stamp(on), of: 'count', method, passes: null, ...eyes.count(tub, nth, method) });
  };

  /** Catches a parcel: first where the reckoning thinks most is over, then wherever there is some. A tub that has less is looked at. */
  const send = (total: number, on: number): void => {
    const order = [...tubs.keys()].sort((a, b) => (spareThought[b] ?? 0) - (spareThought[a] ?? 0));
    let left = total;
    for (const trusts of [true, false]) {
      for (const nth of order) {
        const tub = tubs[nth];
        if (left <= 0 || tub === undefined) continue;
        const asked = trusts ? Math.min(left, Math.round(spareThought[nth] ?? 0)) : left;
        const taken = tub.take(Math.min(asked, Math.max(0, tub.saleable() - leftAlone)), true);
        if (taken < asked && chance.happens(0.7)) count(nth, on, 'glance');
        if (taken === 0) continue;
        tub.take(eyes.some(taken, astray), true);
        left -= taken;
        sold += taken;
        reckoner.log(nth, { ...stamp(on), of: 'sent', number: taken });
      }
    }
  };

  /** Moves animals from the fullest tub to the emptiest; one move in twenty is not logged. */
  const even = (on: number): void => {
    const now = saleable();
    const order = [...tubs.keys()].sort((a, b) => (now[b] ?? 0) - (now[a] ?? 0));
    const [from = 0, to = 0] = [order[0], order.at(-1)];
    if ((now[from] ?? 0) <= 50 || (now[to] ?? 0) >= 20) return;
    const number = tubs[from]?.take(15, false) ?? 0;
    tubs[to]?.put(number);
    if (chance.happens(0.05)) return;
    reckoner.log(from, { ...stamp(on), of: 'moveOut', number, stage: 'saleable' });
    reckoner.log(to, { ...stamp(on), of: 'moveIn', number, stage: 'saleable' });
  };

  const sell = (free: number, on: number): void => {
    const orders = poisson(usualOrders * demand[world.trade]((on / 30.4 + 2) % 12), buyers);
    let left = free;
    for (let order = 0; order < orders; order++) {
      const number = buyers.pick([10, 10, 10, 20, 20, 30]);
      const dispatch = on + buyers.whole(2, 6);
      const total = number + number / 10;
      if (total > Math.floor(left / 10) * 10) continue;
      left -= total;
      promises.push({ number, total, on: dispatch });
    }
  };

  for (let on = 0; on < world.days; on++) {
    tubs.forEach((tub, nth) => {
      const dead = eyes.findDead(tub.live(tempOn(on)));
      if (dead > 0) reckoner.log(nth, { ...stamp(on), of: 'loss', number: dead });
      const plan = counting[world.habit];
      if (on === 0) count(nth, on, plan[0][1]);
      else for (const [every, method] of plan) if ((on + 3 * nth) % every === 0) count(nth, on, method);
    });
    for (const promise of promises.filter((made) => made.on === on)) {
      promises.splice(promises.indexOf(promise), 1);
      sales += 1;
      if (spare() < promise.number) unfilled += 1;
      send(promise.total, on);
    }
    if (on % 60 === 37) even(on);
    if (on % 7 !== 3) continue;
    const figures = reckoner.figures(dayAt(on), holdBack, promised());
    if (figures === null) continue;
    spareThought = figures.tubs.map(({ median }) => Math.max(0, median - holdBack));
    const now = saleable();
    const total = now.reduce((sum, number) => sum + number, 0);
    const sinceFull = tubs.map((_, nth) => (lastFull.has(nth) ? on - (lastFull.get(nth) ?? 0) : null));
    moments.push({ figures, tubs: now, total, free: spare() - promised(), sinceFull });
    for (const look of looking.filter(({ until }) => until <= on)) {
      looking.splice(looking.indexOf(look), 1);
      const weekly = ((sold - look.sold) * 7) / lookDays;
      looks.push({ said: look.ahead(dayAt(look.until), weekly), total });
    }
    if (on % 28 === 3 && figures.ahead !== null) looking.push({ ahead: figures.ahead, until: on + lookDays, sold });
    sell(figures.free, on);
  }
  return { moments, looks, sales, unfilled };
}
