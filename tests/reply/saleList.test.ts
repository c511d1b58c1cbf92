import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { day, defaultBusiness, type Instant, type Sale, type SaleState, saleStates } from '../../src/domain/index.ts';
import { saleListCard, voiceFor } from '../../src/reply/index.ts';
import { expectPhone } from './phone.ts';

fc.configureGlobal({ seed: 20270413 });

const now = '2027-04-13T17:00:00.000Z' as Instant;
const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, now);

const saleOf = (id: number, items: readonly [number, string][], more: Partial<Sale> = {}): Sale => ({
  id,
  entryId: id,
  buyer: null,
  area: null,
  region: null,
  dispatchOn: day('2027-04-19'),
  priceMinor: null,
  postageMinor: 0,
  outlet: null,
  items: items.map(([number, name]) => ({ of: 'line', id: 1, name, number, extras: 0, priceMinor: null })),
  keptUntil: now,
  addedAt: now,
  by: 'wren',
  paidMinor: 0,
  paidAt: null,
  sentAt: null,
  tracking: null,
  arrival: null,
  claim: null,
  cancelled: null,
  ...more,
});
const listed = (sale: Sale, state: SaleState = 'kept') => ({ sale, state, judged: null });

describe('the list of sales', () => {
  it('has the columns under their heads, with the buyer', () => {
    const card = saleListCard(
      voice,
      [
        listed(
          saleOf(
            41,
            [
              [20, 'jade'],
              [2, 'moss'],
            ],
            { buyer: 'kestrel' },
          ),
          'paid',
        ),
        listed(saleOf(138, [[12, 'chocolate']], { buyer: 'plover', dispatchOn: day('2028-03-13') })),
        listed(saleOf(139, [[5, 'snow']], { dispatchOn: null })),
      ],
      null,
    );
    expectPhone(card);
    expect(card.table).toEqual([
      'no. day         state what        buy…',
      '41  19 Apr      paid  20 jade +1  kes…',
      '138 13 Mar 2028 kept  12 chocola… plo…',
      '139 no day      kept  5 snow',
    ]);
  });

  it('fits a phone, whatever was sold to whom', () => {
    const name = fc.string({ minLength: 1, maxLength: 30 }).map((text) => text.replaceAll('!', '.'));
    const sale = fc.record({
      id: fc.integer({ min: 1, max: 99_999 }),
      items: fc.array(fc.tuple(fc.integer({ min: 1, max: 5000 }), name), { minLength: 1, maxLength: 4 }),
      buyer: fc.option(name),
      state: fc.constantFrom(...saleStates),
    });
    fc.assert(
      fc.property(fc.array(sale, { minLength: 1, maxLength: 30 }), (sales) => {
        const rows = sales.map(({ id, items, buyer, state }) => listed(saleOf(id, items, { buyer }), state));
        for (const row of saleListCard(voice, rows, null).table ?? []) expect(row.length, row).toBeLessThanOrEqual(38);
      }),
      { numRuns: 100 },
    );
  });
});
