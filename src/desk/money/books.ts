import { costMovement, isWithin, type Movement, type Period, type SoldAnimals, saleMoney } from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { costsIn } from './costs.ts';
import { spanOf } from './span.ts';

/** All that money did in some days. */
export interface Books {
  readonly movements: readonly Movement[];
  readonly sold: readonly SoldAnimals[];
  /** Numbers of the sales among them whose parts of the price are a guess. */
  readonly guessed: ReadonlySet<number>;
}

export function booksOf(desk: Desk, period: Period): Books {
  const { zone } = businessOf(desk);
  const { from, to } = spanOf(desk, period);
  const sales = desk.store.saleMoney.moved(from, to).map((sale) => ({ sale, ...saleMoney(sale, zone) }));
  const taken = sales.flatMap(({ movements }) => movements.filter(({ day }) => isWithin(day, period)));
  const moved = new Set(taken.map(({ saleId }) => saleId));
  return {
    movements: [...taken, ...costsIn(desk, period).map((cost) => costMovement(cost, zone))],
    sold: sales.flatMap(({ sold }) => sold.filter(({ day }) => isWithin(day, period))),
    guessed: new Set(sales.filter(({ sale, isKnown }) => !isKnown && moved.has(sale.id)).map(({ sale }) => sale.id)),
  };
}

/** The part of books that lies in some of their days. */
export const booksWithin = ({ movements, sold, guessed }: Books, period: Period): Books => ({
  movements: movements.filter(({ day }) => isWithin(day, period)),
  sold: sold.filter(({ day }) => isWithin(day, period)),
  guessed,
});
