import { businessOf, goodsStock, linesOf, todayOf, type WantedItem } from '../src/desk/index.ts';
import { fail, type LocalDay, ok, type Refusal, type Result } from '../src/domain/index.ts';
import { parseDayWords, parseItems, printItems } from '../src/words/index.ts';
import type { Ctx, OptionSpec } from './command.ts';
import { itemsExample } from './itemsExample.ts';

export const saleOption: OptionSpec = {
  name: 'sale',
  description: 'Its number or its buyer',
  type: 'text',
  required: true,
  complete: 'sale',
};
export const itemsSpec = { name: 'items', description: '"20 jade, 10 snow + 2 moss"', type: 'text' } as const;
export const buyerOption: OptionSpec = { name: 'buyer', description: 'Who buys', type: 'text', complete: 'buyer' };
export const areaOption: OptionSpec = {
  name: 'area',
  description: 'Where the parcel goes, in your words',
  type: 'text',
  complete: 'area',
};
export const regionOption: OptionSpec = {
  name: 'region',
  description: 'Its public holidays, if not yours: NL, GB-SCT, US-OR',
  type: 'text',
};
export const dispatchOption: OptionSpec = {
  name: 'dispatch-on',
  description: 'Day it leaves; the next good one if not said',
  type: 'text',
};
export const priceOption: OptionSpec = {
  name: 'price',
  description: 'Agreed total without postage; by the price list if not said',
  type: 'number',
};
export const postageOption: OptionSpec = {
  name: 'postage',
  description: 'Postage that the buyer pays',
  type: 'number',
};

/** An order in words, understood in whole or refused with what was understood and the likely order. */
export function itemsOf(ctx: Ctx, typed: string | undefined): Result<readonly WantedItem[] | undefined, Refusal> {
  if (typed === undefined) return ok(undefined);
  const names = {
    lines: linesOf(ctx.desk).map(({ name }) => name),
    goods: goodsStock(ctx.desk).map(({ goods }) => goods.name),
  };
  const { items, unknown, mended } = parseItems(typed, names);
  if (unknown.length > 0) {
    return fail({
      kind: 'unknown-items',
      understood: items.map((item) => printItems([item])),
      unknown,
      mended,
    });
  }
  return items.length === 0
    ? fail({ kind: 'bad-words', what: 'items', typed, example: itemsExample(ctx.desk) })
    : ok(items);
}

/** An order with its buyer behind it, "20 jade for Sam", where no buyer is given and it is not understood without. */
export function orderOf(
  ctx: Ctx,
  typed: string,
  buyer: string | undefined,
): { items: ReturnType<typeof itemsOf>; buyer: string | undefined } {
  const items = itemsOf(ctx, typed);
  const [, order, name] = /^(.*\S)\s+for\s+(\S.*)$/i.exec(typed) ?? [];
  if (items.ok || buyer !== undefined || order === undefined || name === undefined) return { items, buyer };
  const without = itemsOf(ctx, order);
  return without.ok ? { items: without, buyer: name.trim() } : { items, buyer };
}

/** The day that words name, looking ahead from today; undefined where nothing was typed. */
export function dayIn(ctx: Ctx, typed: string | undefined): Result<LocalDay | undefined, Refusal> {
  if (typed === undefined || typed.trim() === '') return ok(undefined);
  return parseDayWords(typed, { today: todayOf(ctx.desk), zone: businessOf(ctx.desk).zone });
}
