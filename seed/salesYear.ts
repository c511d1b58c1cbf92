import {
  addSale,
  cancelSale,
  dispatchDaysAhead,
  findSale,
  goodsStock,
  paySale,
  type SaleInput,
  setGoods,
  stateOf,
  type WantedItem,
} from '../src/desk/index.ts';
import { addDays, fail, type LocalDay, weekdayOf } from '../src/domain/index.ts';
import { type DemoBuyer, pickBuyer } from './buyers.ts';
import { goods, outlet } from './founding.ts';
import { openRandom } from './random.ts';
import { lineNames, must, type Stage, stockOfLine } from './stage.ts';

/** The sales of the year: who asks for what, who pays and who does not. */
export interface SalesYear {
  /** The hours after noon, when people write and money comes in. */
  afternoon(day: LocalDay): void;
  /** Books a sale; its number, or null where the stock has nothing for it. */
  sell(input: SaleInput & { readonly payOn: LocalDay | null }): number | null;
  booked(): number;
}

/** Orders that come in a day, on average, while parcels may leave within the days looked ahead. */
const ordersPerDay = 0.52;
const lookAheadDays = 24;
/** Good days among which a buyer has the choice. */
const daysOffered = 5;
/** Part of what is free that is sold on an estimate by eye; the rest is left as a margin. */
const soldShare = 0.6;
const leastOrder = 5;
const numbers = [6, 8, 10, 10, 10, 12, 15, 15, 20, 20, 25, 30] as const;
const postageMinor = { home: 690, abroad: 1490 } as const;
/** An unpaid sale is given up so many days after it was booked. */
const giveUpAfterDays = 8;
const restock: Readonly<Record<string, number>> = { [goods.moss]: 18, [goods.leaves]: 30, [goods.boxes]: 25 };

interface Pending {
  readonly sale: number;
  readonly payOn: LocalDay | null;
  readonly giveUpOn: LocalDay;
}

export function openSalesYear(stage: Stage, seed: number): SalesYear {
  const { desk, clock } = stage;
  const random = openRandom(seed);
  let pending: Pending[] = [];
  let booked = 0;

  const seller = () => stage.by(random.happens(0.55) ? 'partner' : 'owner');

  const sell: SalesYear['sell'] = ({ payOn, ...input }) => {
    clock.pass(random.between(4, 30));
    const result = addSale(desk, seller(), input);
    if (!result.ok) {
      // What the stock can't bear is offered smaller, or not at all.
      const { fault } = result;
      const [first, ...rest] = input.items;
      if (fault.kind !== 'not-enough' || first === undefined) return must(fail(fault));
      const fits = Math.floor(fault.fits * soldShare);
      return fits < leastOrder || rest.length > 0
        ? null
        : sell({ ...input, payOn, items: [{ ...first, number: fits }] });
    }
    booked += 1;
    const sale = result.value.sale.id;
    pending.push({ sale, payOn, giveUpOn: addDays(clock.today(), giveUpAfterDays) });
    return sale;
  };

  const order = (): WantedItem[] => {
    const lines = lineNames(stage);
    const name = lines[random.whole(0, lines.length - 1)] ?? '';
    const free = Math.floor(stockOfLine(stage, name).free * soldShare) - 3;
    const wanted = random.pick(numbers);
    // Some ask for more than there is, and take what they are offered.
    const number = random.happens(0.08) ? wanted : Math.min(wanted, free);
    if (number < leastOrder) return [];
    const items: WantedItem[] = [{ of: 'line', name, number }];
    const extra = random.happens(0.3) ? goods.moss : random.happens(0.2) ? goods.leaves : null;
    const there = goodsStock(desk).find((each) => each.goods.name === extra)?.free ?? 0;
    if (extra !== null && there >= 2) items.push({ of: 'goods', name: extra, number: random.whole(1, 2) });
    return items;
  };

  const takeOrder = (day: LocalDay, goodDays: readonly LocalDay[], buyer: DemoBuyer): void => {
    const items = order();
    if (items.length === 0) return;
    const [first, ...later] = goodDays.filter((good) => good >= addDays(day, 3)).slice(0, daysOffered);
    const isSoon = first !== undefined && first < addDays(day, 12);
    // Of a season that opens, not everybody gets the first day.
    const dispatchOn = isSoon && random.happens(0.75) ? first : (later[random.whole(0, later.length)] ?? first);
    sell({
      items,
      ...buyer,
      // Days at home say nothing of the holidays abroad: there the books find the day.
      dispatchOn: buyer.region === undefined ? dispatchOn : undefined,
      postageMinor: buyer.region === undefined ? postageMinor.home : postageMinor.abroad,
      outlet: random.happens(0.3) ? outlet : undefined,
      payOn: random.happens(0.92) ? addDays(day, random.pick([0, 0, 1, 1, 2])) : null,
    });
  };

  const settle = (day: LocalDay): void => {
    for (const { sale, payOn, giveUpOn } of pending) {
      const state = stateOf(desk, must(findSale(desk, String(sale))));
      if (payOn !== null && payOn <= day && state === 'kept') {
        clock.pass(random.between(2, 12));
        must(paySale(desk, seller(), { sale: String(sale) }));
      } else if (giveUpOn <= day && state === 'lapsed') {
        clock.pass(random.between(1, 4));
        must(cancelSale(desk, seller(), { sale: String(sale), reason: 'never paid' }));
      }
    }
    pending = pending.filter(({ sale }) => {
      const state = stateOf(desk, must(findSale(desk, String(sale))));
      return state === 'kept' || state === 'lapsed';
    });
  };

  const buyGoods = (): void => {
    for (const { goods: each, low } of goodsStock(desk)) {
      if (!low) continue;
      clock.pass(random.between(2, 5));
      must(setGoods(desk, stage.by('partner'), { name: each.name, add: restock[each.name] ?? 10 }));
    }
  };

  return {
    sell,
    booked: () => booked,
    afternoon(day) {
      // The last days before today are told elsewhere, so that today has its parcels whatever chance would bring.
      const orders = day >= addDays(stage.today, -4) ? 0 : drawOrders(random.next());
      const goodDays = orders === 0 ? [] : dispatchDaysAhead(desk, lookAheadDays).map((judged) => judged.day);
      const isPreOrder = (goodDays[0] ?? day) > addDays(day, 12);
      for (let index = 0; index < orders; index++) {
        const buyer = pickBuyer(random);
        if (goodDays.length > 0 && (!isPreOrder || random.happens(0.3))) takeOrder(day, goodDays, buyer);
      }
      settle(day);
      if (weekdayOf(day) === 6) buyGoods();
    },
  };
}

/** Orders of one day: Poisson's, by its sums, for a chance of 0 to 1. */
function drawOrders(chance: number): number {
  let orders = 0;
  let term = Math.exp(-ordersPerDay);
  for (let sum = term; chance > sum && orders < 5; sum += term) {
    orders += 1;
    term *= ordersPerDay / orders;
  }
  return orders;
}
