import type { Tub } from '../domain/index.ts';
import { press } from './acts.ts';
import type { Form } from './card.ts';
import type { Voice } from './voice.ts';

export const readingForm = (voice: Voice, tub: Tub): Form => ({
  title: `Reading of ${tub.name}`,
  press: press('reading-send', { tub: tub.id }),
  fields: [
    { id: 'nitrate', label: 'Nitrate, mg/L', lines: 'one', required: false },
    { id: 'temp', label: `Temperature, ${voice.units === 'us' ? '°F' : '°C'}`, lines: 'one', required: false },
    { id: 'ph', label: 'pH', lines: 'one', required: false },
    { id: 'others', label: 'Others', hint: 'gh 8 kh 4 tds 240 nh4 0 no2 0', lines: 'one', required: false },
    { id: 'note', label: 'Note', lines: 'one', required: false },
  ],
});

export const countForm = (tub: Tub): Form => ({
  title: `Count of ${tub.name}`,
  press: press('count-send', { tub: tub.id }),
  fields: [
    { id: 'saleable', label: 'Saleable', lines: 'one', required: true },
    { id: 'juveniles', label: 'Juveniles', lines: 'one', required: false },
    { id: 'berried', label: 'Berried', lines: 'one', required: false },
    { id: 'method', label: 'Method: full, dish or glance', lines: 'one', value: 'glance', required: false },
  ],
});

/** The catches of removal passes, those of earlier passes filled in. */
export const passesForm = (tub: Tub, caught: readonly number[]): Form => ({
  title: `Passes of ${tub.name}`,
  press: press('passes-send', { tub: tub.id }),
  fields: (['First', 'Second', 'Third', 'Fourth'] as const).map((nth, index) => ({
    id: nth.toLowerCase(),
    label: `${nth} pass: saleable caught`,
    ...(index === 0 && { hint: 'Keep them apart until the last pass' }),
    ...(index === 1 && { hint: 'The same net, the same time' }),
    lines: 'one',
    required: index < 2,
    ...(caught[index] !== undefined && { value: String(caught[index]) }),
  })),
});

export const lineForm = (): Form => ({
  title: 'First colour line',
  press: press('line-send', {}),
  fields: [
    { id: 'line', label: 'Name of the line', hint: 'As you call it, like Jade', lines: 'one', required: true },
    { id: 'price', label: 'Price of one animal', hint: 'Empty: not set yet', lines: 'one', required: false },
  ],
});

/** Tubs to add; a single line of the business stands there already. */
export const tubsForm = (lines: readonly { readonly name: string }[]): Form => {
  const [only, another] = lines;
  return {
    title: 'Add tubs',
    press: press('tubs-send', {}),
    fields: [
      { id: 'name', label: 'Name, or a range', hint: 'A1-A6 makes six', lines: 'one', required: true },
      {
        id: 'line',
        label: 'Colour line in them',
        lines: 'one',
        required: true,
        ...(only !== undefined && another === undefined && { value: only.name }),
      },
      { id: 'litres', label: 'Litres of each, filled to the rim', lines: 'one', required: true },
    ],
  };
};

/** One tub a line, ready to be filled in. */
export const sheetForm = (tubs: readonly string[], rack: string, ofTubs = tubs.length): Form => ({
  title: `${rack === '' ? 'Readings' : `Rack ${rack}`}${ofTubs > tubs.length ? `, ${tubs.length} of ${ofTubs}` : ''}`,
  press: press('sheet-send', { rack }),
  fields: [
    {
      id: 'sheet',
      label: 'One tub a line: no3 20 t 21.5 ph 7.4',
      hint: 'Also gh kh tds nh4 no2; leave a tub as it is to skip it',
      lines: 'many',
      value: tubs.map((tub) => `${tub} `).join('\n'),
      required: true,
    },
  ],
});

/** A new sale; `example` is an order as this business may type it. */
export const saleForm = (example: string): Form => ({
  title: 'New sale',
  press: press('sale-send', {}),
  fields: [
    { id: 'items', label: 'Items', hint: example, lines: 'one', required: true },
    { id: 'buyer', label: 'Buyer', lines: 'one', required: false },
    {
      id: 'dispatch-on',
      label: 'Dispatch on',
      hint: 'Mon, 14 Mar; empty: the next good day',
      lines: 'one',
      required: false,
    },
    { id: 'price', label: 'Price of all', hint: 'Empty: by the price list', lines: 'one', required: false },
    { id: 'area', label: 'Where to', lines: 'one', required: false },
  ],
});
