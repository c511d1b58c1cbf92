import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  logReading,
  logWeather,
  type PackInput,
  packingList,
  paySale,
  planPack,
  setBusiness,
  setLine,
  type TypedValues,
} from '../../../src/desk/index.ts';
import { day } from '../../../src/domain/index.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-14T09:00:00Z');
});
afterEach(() => test.close());

const monday = day('2027-03-15');
const read = (tub: string, values: TypedValues) => taken(logReading(test.desk, test.by('wren'), { tub, values }));
const asked = (input: PackInput) => taken(planPack(test.desk, input)).plan.question;

describe('a bag plan', () => {
  it('takes of each value the highest that the tubs have lately shown', () => {
    read('A1', { tempC: 21, ph: 7.2, khDkh: 4 });
    read('A2', { tempC: 19.5, ph: 7.6 });
    read('B1', { khDkh: 6 });
    expect(taken(planPack(test.desk, { number: 10 }))).toMatchObject({
      plan: { question: { ph: 7.6, khDkh: 6, way: { startC: 21, warmC: 21, coldC: 21 } } },
      untold: ['length', 'hours', 'temperature'],
      measured: { tempC: true, ph: true },
      slip: null,
    });
    read('A2', { ph: 7.1 });
    expect(asked({ number: 10 }).ph).toBe(7.2);
    test.advance({ days: 61 });
    expect(taken(planPack(test.desk, { number: 10 }))).toMatchObject({
      plan: { question: { ph: 8, khDkh: null, way: { startC: 20 } } },
      measured: { tempC: false, ph: false },
    });
  });

  it('takes the hardness of the source water where no tub was measured', () => {
    taken(setBusiness(test.desk, test.by('wren'), { sourceKhDkh: 3 }));
    expect(asked({ number: 10 }).khDkh).toBe(3);
  });

  it('takes what was said, and else the longest saleable length and the hours of the way', () => {
    taken(setLine(test.desk, test.by('wren'), { line: 'snow', saleableMm: 17 }));
    taken(setBusiness(test.desk, test.by('wren'), { transitDays: 2, slackDays: 2 }));
    expect(asked({ number: 10 })).toMatchObject({ kind: 'ordinary', animals: 10, lengthMm: 17, hours: 120 });
    expect(
      taken(planPack(test.desk, { number: 7, lengthMm: 12, hours: 30, temp: 9, bag: 'breathable' })),
    ).toMatchObject({
      plan: {
        question: {
          ...{ kind: 'breathable', animals: 7, lengthMm: 12, hours: 30 },
          way: { startC: 20, warmC: 9, coldC: 9 },
        },
      },
      untold: [],
    });
    taken(setLine(test.desk, test.by('wren'), { line: 'snow', saleableMm: 12 }));
    taken(setLine(test.desk, test.by('wren'), { line: 'jade', saleableMm: 13 }));
    expect(asked({ number: 10 }).lengthMm).toBe(13);
  });

  it('reads the air in the units of the business', () => {
    taken(setBusiness(test.desk, test.by('wren'), { units: 'us' }));
    expect(asked({ number: 10, temp: 50 }).way.warmC).toBeCloseTo(10, 9);
    expect(taken(planPack(test.desk, { number: 10, temp: 21 })).slip).toMatchObject({ value: 21, how: 'celsius' });
    expect(taken(planPack(test.desk, { number: 10, temp: 60 })).slip).toBeNull();
  });

  it.each<[PackInput, object]>([
    [
      { number: 10, temp: 72 },
      { name: 'temp', typed: 72, mended: { value: 22.2, how: 'fahrenheit' } },
    ],
    [
      { number: 10, temp: 900 },
      { name: 'temp', mended: null },
    ],
    [
      { number: 10, lengthMm: 1.8 },
      { name: 'length-mm', mended: { value: 18, how: 'centimetres' } },
    ],
    [
      { number: 10, lengthMm: 160 },
      { name: 'length-mm', mended: { value: 16, how: 'decimal' } },
    ],
    [
      { number: 10, lengthMm: -3 },
      { name: 'length-mm', mended: null },
    ],
    [
      { number: 10, hours: Number.NaN },
      { name: 'hours', mended: null },
    ],
    [{ number: 201 }, { name: 'number', min: 1, max: 200, mended: null }],
    [{ number: 1.5 }, { name: 'number', mended: null }],
  ])('is refused for %o', (input, fault) => {
    expect(faultOf(planPack(test.desk, input))).toMatchObject({ kind: 'impossible-pack', ...fault });
  });
});

describe('the bags of a parcel', () => {
  const soldTo = (area: string | undefined, number = 10) => {
    const sale = test.sell(number, { dispatchOn: monday, ...(area !== undefined && { area }) });
    taken(paySale(test.desk, test.by('wren'), { sale: String(sale.id) }));
    return sale;
  };
  const bags = () => packingList(test.desk, monday).parcels.map((parcel) => parcel.bags);

  it('hold its animals with the extras, line by line, in the water of the line', () => {
    read('A1', { tempC: 21, ph: 7.2, khDkh: 4 });
    read('B1', { tempC: 18, ph: 7.8 });
    const items = [
      { of: 'line' as const, name: 'jade', number: 10 },
      { of: 'line' as const, name: 'snow', number: 5 },
      { of: 'goods' as const, name: 'moss', number: 1 },
    ];
    const sale = test.sell(1, { items, dispatchOn: monday, priceMinor: 100 });
    taken(paySale(test.desk, test.by('wren'), { sale: String(sale.id) }));
    const [jade, snow] = sale.items;
    expect(bags()).toMatchObject([
      [
        { line: 'jade', plan: { question: { animals: 10 + (jade?.extras ?? 0), ph: 7.2, way: { startC: 21 } } } },
        // No KH was read in the tubs of snow, so it is the other tubs'.
        {
          line: 'snow',
          plan: { question: { animals: 5 + (snow?.extras ?? 0), ph: 7.8, khDkh: 4, way: { startC: 18 } } },
        },
      ],
    ]);
    expect(jade?.extras).toBeGreaterThan(0);
  });

  it('are for the hours of transit, slack and a day of delay, in air as warm as the tubs', () => {
    read('A1', { tempC: 21 });
    soldTo(undefined);
    expect(bags()).toMatchObject([[{ plan: { question: { hours: 72, way: { startC: 21, warmC: 21, coldC: 21 } } } }]]);
  });

  it('are for the air of the forecasts on its way, the latest of each', () => {
    soldTo('Delft');
    soldTo(undefined);
    const forecast = (on: string, area: string, lowC: number, highC: number) => {
      taken(logWeather(test.desk, test.by('wren'), { day: day(on), area, lowC, highC }));
      test.advance({ minutes: 1 });
    };
    forecast('2027-03-15', 'home', 7, 12);
    forecast('2027-03-16', 'Delft', 1, 25);
    forecast('2027-03-16', 'Delft', 6, 15);
    forecast('2027-03-18', 'Delft', 8, 16);
    forecast('2027-03-19', 'Delft', 0, 30);
    expect(bags()).toMatchObject([
      [{ plan: { question: { way: { startC: 20, warmC: 16, coldC: 6 } } } }],
      [{ plan: { question: { way: { startC: 20, warmC: 12, coldC: 7 } } } }],
    ]);
  });
});
