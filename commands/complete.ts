import {
  allChores,
  areasOf,
  buyersOf,
  goodsStock,
  linesOf,
  outletsOf,
  racksOf,
  rotaToday,
  salesList,
  seasons,
  tubsInUse,
  undoable,
} from '../src/desk/index.ts';
import { folded, nearest } from '../src/domain/index.ts';
import { momentWords, orderLine } from '../src/reply/index.ts';
import type { Completion, Ctx, RawInput } from './command.ts';
import { voiceOf } from './voice.ts';

/** What the service shows and what it sends back when chosen. */
export interface Choice {
  readonly name: string;
  readonly value: string;
}

const most = 25;

const named = (things: readonly { readonly name: string }[]): Choice[] =>
  things.map(({ name }) => ({ name, value: name }));

const sources: Record<Completion, (ctx: Ctx, others: RawInput) => readonly Choice[]> = {
  tub: ({ desk }) => tubsInUse(desk).map(({ name, lineName }) => ({ name: `${name} · ${lineName}`, value: name })),
  line: ({ desk }) => named(linesOf(desk)),
  rack: ({ desk }) => racksOf(desk).map((rack) => ({ name: rack, value: rack })),
  outlet: ({ desk }) => named(outletsOf(desk)),
  entry: (ctx) =>
    undoable(ctx.desk).map(({ id, summary, who, loggedAt }) => ({
      name: `${summary} (${who.name}, ${momentWords(voiceOf(ctx), loggedAt)})`,
      value: String(id),
    })),
  sale: (ctx) =>
    salesList(ctx.desk).map(({ sale, state }) => ({
      name: `${sale.id} · ${state} · ${orderLine(sale)}`,
      value: String(sale.id),
    })),
  chore: ({ desk }) => {
    const due = rotaToday(desk)
      .filter(({ done }) => done === null)
      .map((item) => item.due.chore.name);
    return [...new Set([...due, ...allChores(desk).map(({ name }) => name)])].map((name) => ({ name, value: name }));
  },
  goods: ({ desk }) => named(goodsStock(desk).map(({ goods }) => goods)),
  area: ({ desk }) => areasOf(desk).map((area) => ({ name: area, value: area })),
  buyer: ({ desk }) => buyersOf(desk).map((buyer) => ({ name: buyer, value: buyer })),
  window: ({ desk }) => named(seasons(desk).map(({ window }) => window)),
};

/** What may be meant by what is typed so far: what begins with it, what holds it, then what is near it. At most 25. */
export function complete(kind: Completion, typed: string, ctx: Ctx, others: RawInput): Choice[] {
  const all = sources[kind](ctx, others);
  const wanted = folded(typed);
  if (wanted === '') return all.slice(0, most).map(clipped);
  const begins = all.filter(({ name, value }) => folded(value).startsWith(wanted) || folded(name).startsWith(wanted));
  const holds = all.filter((choice) => !begins.includes(choice) && folded(choice.name).includes(wanted));
  const found = [...begins, ...holds];
  const near =
    found.length > 0
      ? []
      : nearest(
          typed,
          all.map(({ value }) => value),
        ).flatMap((value) => all.find((choice) => choice.value === value) ?? []);
  return [...found, ...near].slice(0, most).map(clipped);
}

const clipped = ({ name, value }: Choice): Choice => ({
  name: name.length > 100 ? `${name.slice(0, 99)}…` : name,
  value: value.slice(0, 100),
});
