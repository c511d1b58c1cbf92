import { z } from 'zod';
import {
  addSale,
  cancelSale,
  carriedGoods,
  editSale,
  findSale,
  forgetBuyer,
  judgeSale,
  namedCatches,
  parcelsOf,
  paySale,
  salesList,
  stateOf,
  toForget,
} from '../src/desk/index.ts';
import { saleStates } from '../src/domain/index.ts';
import {
  catchWords,
  forgetAskCard,
  forgottenAlreadyCard,
  forgottenCard,
  paidCard,
  saleAddedCard,
  saleCancelledCard,
  saleCard,
  saleEditedCard,
  saleListCard,
} from '../src/reply/index.ts';
import { minorOf } from './amounts.ts';
import { type Answer, type Command, type Ctx, leaf } from './command.ts';
import { momentOf, optionalFlag, optionalNumber, optionalText, text, whenOption } from './options.ts';
import {
  areaOption,
  buyerOption,
  dayIn,
  dispatchOption,
  itemsOf,
  itemsSpec,
  orderOf,
  postageOption,
  priceOption,
  regionOption,
  saleOption,
} from './saleOptions.ts';
import { refused, voiceOf } from './voice.ts';

export const addLeaf = leaf({
  path: 'sale add',
  description: 'Book a sale: reserves the animals with extras, and judges the dispatch day',
  options: [
    { ...itemsSpec, required: true },
    buyerOption,
    areaOption,
    regionOption,
    dispatchOption,
    priceOption,
    postageOption,
    { name: 'outlet', description: 'Selling place', type: 'text', complete: 'outlet' },
  ],
  input: z.object({
    items: text,
    buyer: optionalText,
    area: optionalText,
    region: optionalText,
    'dispatch-on': optionalText,
    price: optionalNumber,
    postage: optionalNumber,
    outlet: optionalText,
  }),
  run: ({ items: typed, 'dispatch-on': day, price, postage, ...input }, ctx) => {
    const { items, buyer } = orderOf(ctx, typed, input.buyer);
    if (!items.ok) return refused(ctx, items.fault);
    const dispatchOn = dayIn(ctx, day);
    if (!dispatchOn.ok) return refused(ctx, dispatchOn.fault);
    const priceMinor = minorOf(ctx, 'price', price);
    if (!priceMinor.ok) return refused(ctx, priceMinor.fault);
    const postageMinor = minorOf(ctx, 'postage', postage);
    if (!postageMinor.ok) return refused(ctx, postageMinor.fault);
    const booked = addSale(ctx.desk, ctx.by, {
      ...input,
      buyer,
      items: items.value ?? [],
      dispatchOn: dispatchOn.value,
      priceMinor: priceMinor.value,
      postageMinor: postageMinor.value,
    });
    return booked.ok ? { card: saleAddedCard(voiceOf(ctx), ctx.by.name, booked.value) } : refused(ctx, booked.fault);
  },
});

export const paidLeaf = leaf({
  path: 'sale paid',
  description: 'Log a payment; only paid sales are on the packing list',
  options: [saleOption, { name: 'amount', description: 'What came, if not all of it', type: 'number' }, whenOption],
  input: z.object({ sale: text, amount: optionalNumber, when: optionalText, again: optionalFlag }),
  run: ({ sale, amount, when, again }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const amountMinor = minorOf(ctx, 'amount', amount);
    if (!amountMinor.ok) return refused(ctx, amountMinor.fault);
    const paid = paySale(ctx.desk, ctx.by, { sale, amountMinor: amountMinor.value, at: at.value, again });
    if (!paid.ok) return refused(ctx, paid.fault);
    const judged = judgeSale(ctx.desk, paid.value.sale);
    return { card: paidCard(voiceOf(ctx), ctx.by.name, paid.value, judged) };
  },
});

export const listLeaf = leaf({
  path: 'sale list',
  description: 'Sales that are not over, or those in one state',
  options: [{ name: 'state', description: 'Only these', type: 'text', choices: saleStates }],
  input: z.object({ state: z.enum(saleStates).nullish() }),
  run: ({ state }, ctx) => ({
    card: saleListCard(voiceOf(ctx), salesList(ctx.desk, state ?? undefined), state ?? null),
  }),
});

export const showLeaf = leaf({
  path: 'sale show',
  description: 'A sale as it stands',
  options: [saleOption],
  input: z.object({ sale: text }),
  run: ({ sale: typed }, ctx) => {
    const found = findSale(ctx.desk, typed);
    if (!found.ok) return refused(ctx, found.fault);
    const sale = found.value;
    const parcels = parcelsOf(ctx.desk, sale.id);
    const caught = namedCatches(
      ctx.desk,
      parcels.flatMap(({ catches }) => catches),
    ).map(catchWords);
    const shown = {
      sale,
      state: stateOf(ctx.desk, sale),
      judged: judgeSale(ctx.desk, sale),
      carried: carriedGoods(ctx.desk, sale),
      caught,
    };
    return { card: saleCard(voiceOf(ctx), shown) };
  },
});

export const editLeaf = leaf({
  path: 'sale edit',
  description: 'Change a sale that is not sent: items, day, price, buyer',
  options: [saleOption, itemsSpec, dispatchOption, priceOption, postageOption, buyerOption, areaOption],
  input: z.object({
    sale: text,
    items: optionalText,
    'dispatch-on': optionalText,
    price: optionalNumber,
    postage: optionalNumber,
    buyer: optionalText,
    area: optionalText,
  }),
  run: ({ sale, items: typed, 'dispatch-on': day, price, postage, buyer, area }, ctx) => {
    const items = itemsOf(ctx, typed);
    if (!items.ok) return refused(ctx, items.fault);
    const dispatchOn = dayIn(ctx, day);
    if (!dispatchOn.ok) return refused(ctx, dispatchOn.fault);
    const priceMinor = minorOf(ctx, 'price', price);
    if (!priceMinor.ok) return refused(ctx, priceMinor.fault);
    const postageMinor = minorOf(ctx, 'postage', postage);
    if (!postageMinor.ok) return refused(ctx, postageMinor.fault);
    const edited = editSale(ctx.desk, ctx.by, {
      sale,
      items: items.value,
      dispatchOn: dispatchOn.value,
      priceMinor: priceMinor.value,
      postageMinor: postageMinor.value,
      buyer,
      area,
    });
    if (!edited.ok) return refused(ctx, edited.fault);
    const state = stateOf(ctx.desk, edited.value.sale);
    return { card: saleEditedCard(voiceOf(ctx), ctx.by.name, edited.value, state) };
  },
});

export const cancelLeaf = leaf({
  path: 'sale cancel',
  description: 'Give a sale up: what it reserved is free again',
  options: [saleOption, { name: 'reason', description: 'Why', type: 'text', required: true }],
  input: z.object({ sale: text, reason: text }),
  run: (input, ctx) => {
    const cancelled = cancelSale(ctx.desk, ctx.by, input);
    return cancelled.ok
      ? { card: saleCancelledCard(voiceOf(ctx), ctx.by.name, cancelled.value) }
      : refused(ctx, cancelled.fault);
  },
});

export const forgetLeaf = leaf({
  path: 'sale forget',
  description: "Erase a buyer's data for good; the books are kept",
  options: [{ ...buyerOption, description: 'Who asks to be forgotten', required: true }],
  input: z.object({ buyer: text }),
  run: ({ buyer }, ctx) => {
    const found = toForget(ctx.desk, buyer);
    return found.ok ? { card: forgetAskCard(found.value), private: true } : refused(ctx, found.fault);
  },
});

/** Erases a buyer once somebody confirmed it. */
export function forgetOnPress(ctx: Ctx, buyer: number): Answer {
  const done = forgetBuyer(ctx.desk, ctx.by, buyer);
  if (done === undefined) return { settle: forgottenAlreadyCard, private: true };
  return done.ok
    ? { settle: { title: 'Forgotten' }, card: forgottenCard(voiceOf(ctx), done.value), private: true }
    : refused(ctx, done.fault);
}

export const sale: Command = {
  name: 'sale',
  description: 'Sales: book, paid, list, change, cancel, forget a buyer',
  leaves: [addLeaf, paidLeaf, listLeaf, showLeaf, editLeaf, cancelLeaf, forgetLeaf],
};
