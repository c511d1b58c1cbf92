import { z } from 'zod';
import { setGoods } from '../src/desk/index.ts';
import { goodsCard } from '../src/reply/index.ts';
import { minorOf } from './amounts.ts';
import { type Command, leaf } from './command.ts';
import { optionalNumber, optionalText, text } from './options.ts';
import { refused, voiceOf } from './voice.ts';

const set = leaf({
  path: 'goods',
  description: 'Moss, leaves, boxes, bags: stock, price, when to buy',
  options: [
    { name: 'name', description: 'What it is called', type: 'text', required: true, complete: 'goods' },
    { name: 'price', description: 'Price of one', type: 'number' },
    { name: 'add', description: 'Pieces that came in; negative: that went', type: 'integer' },
    { name: 'line', description: 'Line whose young it may carry, or "none"', type: 'text', complete: 'line' },
    { name: 'keep-at-least', description: 'Say when fewer are left than this', type: 'integer' },
  ],
  input: z.object({
    name: text,
    price: optionalNumber,
    add: optionalNumber,
    line: optionalText,
    'keep-at-least': optionalNumber,
  }),
  run: ({ name, price, add, line, 'keep-at-least': keepAtLeast }, ctx) => {
    const priceMinor = minorOf(ctx, 'price', price);
    if (!priceMinor.ok) return refused(ctx, priceMinor.fault);
    const answer = setGoods(ctx.desk, ctx.by, { name, priceMinor: priceMinor.value, add, line, keepAtLeast });
    return answer.ok ? { card: goodsCard(voiceOf(ctx), ctx.by.name, answer.value) } : refused(ctx, answer.fault);
  },
});

export const goods: Command = { name: 'goods', description: set.description, leaves: [set] };
