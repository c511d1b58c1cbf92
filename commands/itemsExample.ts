import { type Desk, goodsStock, linesOf } from '../src/desk/index.ts';

/** What the hint of a form's field may hold. */
const mostLength = 100;

/** An order as it may be typed, of what this business sells: "20 jade, 10 snow + 2 moss". */
export function itemsExample(desk: Desk): string {
  const [first = 'jade', second] = linesOf(desk).map(({ name }) => name);
  const [goods] = goodsStock(desk).flatMap(({ goods: { name, priceMinor } }) => (priceMinor === null ? [] : [name]));
  const example = `20 ${first}${second === undefined ? '' : `, 10 ${second}`}${goods === undefined ? '' : ` + 2 ${goods}`}`;
  return example.length > mostLength ? `20 ${first}` : example;
}
