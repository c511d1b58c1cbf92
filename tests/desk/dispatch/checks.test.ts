import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  checkParcel,
  editSale,
  exportTables,
  firstToPack,
  logCount,
  logReading,
  packingList,
  packingParcel,
  paySale,
  sendParcel,
  undo,
} from '../../../src/desk/index.ts';
import { type CheckStep, checkSteps, day } from '../../../src/domain/index.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

const monday = day('2027-03-15');
let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-14T09:00:00Z', { A1: 42, A2: 35 });
});
afterEach(() => test.close());

const pay = (id: number) => {
  test.advance({ minutes: 1 });
  taken(paySale(test.desk, test.by('wren'), { sale: String(id) }));
  return id;
};
const paid = (number: number) => pay(test.sell(number, { dispatchOn: monday }).id);
const tick = (sale: number, step: CheckStep, number?: number, by = 'wren') =>
  checkParcel(test.desk, test.by(by), { sale: String(sale), day: monday, step, number });
const packing = (sale: number) => {
  const found = packingParcel(test.desk, monday, sale);
  if (found === undefined) throw new Error(`parcel ${sale} is not on the list`);
  return found;
};
const tubsOf = (sale: number) => packing(sale).parcel.catches.map(({ tub }) => tub);

describe('packing a parcel', () => {
  it('is ticked step by step, by whom and when, and undone', () => {
    const sale = paid(10);
    const { toSend } = packing(sale);
    expect(packing(sale)).toMatchObject({ place: 1, parcels: 1, next: null, parcel: { packed: { done: 0 } } });
    for (const step of checkSteps) taken(tick(sale, step, undefined, step === 'again' ? 'alder' : 'wren'));
    const { packed } = packing(sale).parcel;
    expect(packed).toMatchObject({ done: 6, countedAlone: false });
    expect(packed.steps[2]?.done).toMatchObject({ by: 'alder', number: toSend });
    taken(undo(test.desk, test.by('wren'), true, test.desk.store.entries.latest(1)[0]?.id ?? 0));
    expect(packing(sale).parcel.packed.done).toBe(5);
  });

  it('keeps a count that was said, right or wrong, and refuses one that can not be', () => {
    const sale = paid(10);
    taken(tick(sale, 'again', 11));
    expect(packing(sale).parcel.packed.steps[2]).toMatchObject({ done: null, miscounted: { number: 11 } });
    for (const number of [0, 1.5, -2]) expect(faultOf(tick(sale, 'again', number)).kind).toBe('impossible-amount');
  });

  it('is for parcels that are paid and not sent', () => {
    const unpaid = test.sell(5, { dispatchOn: monday }).id;
    expect(faultOf(tick(unpaid, 'slip'))).toMatchObject({ kind: 'sale-state' });
    expect(packingParcel(test.desk, monday, unpaid)).toBeUndefined();
    const sale = paid(5);
    taken(sendParcel(test.desk, test.by('wren'), { sale: String(sale), anyway: true }));
    expect(faultOf(tick(sale, 'slip')).kind).toBe('sale-state');
  });

  it('goes from one to the next that is not packed, and around', () => {
    const [first, second, third] = [paid(3), paid(3), paid(3)];
    expect(firstToPack(test.desk, monday)).toBe(first);
    for (const step of checkSteps) taken(tick(second, step));
    expect([packing(first).next, packing(second).next, packing(third).next]).toEqual([third, third, first]);
    for (const step of checkSteps) taken(tick(first, step));
    expect(firstToPack(test.desk, monday)).toBe(third);
    expect(packing(third).next).toBeNull();
    expect(firstToPack(test.desk, day('2027-03-16'))).toBeUndefined();
  });

  it('starts anew on a later day', () => {
    const sale = paid(10);
    taken(tick(sale, 'slip'));
    taken(editSale(test.desk, test.by('wren'), { sale: String(sale), dispatchOn: day('2027-03-16') }));
    expect(packingList(test.desk, day('2027-03-16')).parcels[0]?.packed.done).toBe(0);
  });

  it('has the last values of the tub’s water on its slip, each from the reading that has it', () => {
    const sale = paid(10);
    const [tub = ''] = tubsOf(sale);
    expect(packing(sale).slip).toEqual([{ tub, values: [] }]);
    taken(logReading(test.desk, test.by('wren'), { tub, values: { tempC: 21.5, ph: 7.4, ghDgh: 8 } }));
    test.advance({ hours: 1 });
    taken(logReading(test.desk, test.by('wren'), { tub, values: { tempC: 22, nitrateMgL: 10 } }));
    expect(packing(sale).slip[0]?.values.map(({ name, value }) => [name, value])).toEqual([
      ['tempC', 22],
      ['ph', 7.4],
      ['ghDgh', 8],
    ]);
  });

  it('is exported with its tubs', () => {
    const sale = paid(10);
    taken(tick(sale, 'caught'));
    taken(tick(sale, 'counted'));
    const checks = taken(exportTables(test.desk, { what: 'parcels' }))
      .map((read) => read())
      .find(({ name }) => name === 'checks');
    expect(checks?.rows.map((row) => [row[2], row[5]])).toEqual([
      ['caught', tubsOf(sale)[0]],
      ['counted', null],
    ]);
  });
});

describe('a parcel that was caught', () => {
  it('keeps its tubs whatever is paid or counted after, and the others are planned around it', () => {
    const first = paid(10);
    const before = tubsOf(first);
    taken(tick(first, 'caught'));
    const second = paid(20);
    taken(logCount(test.desk, test.by('wren'), { tub: before[0] ?? '', saleable: 22, method: 'full' }));
    expect(tubsOf(first)).toEqual(before);
    const caught = packingList(test.desk, monday).parcels.flatMap(({ catches }) => catches);
    const here = caught.filter(({ tub }) => tub === before[0]).reduce((sum, { number }) => sum + number, 0);
    expect(here).toBeLessThanOrEqual(12);
    taken(sendParcel(test.desk, test.by('wren'), { sale: String(first), anyway: true }));
    expect(test.desk.store.parcels.parcels(first)[0]?.catches.map(({ tubId }) => tubId)).toHaveLength(before.length);
    expect(packingList(test.desk, monday).parcels.map(({ sale }) => sale.id)).toEqual([second]);
  });

  it('is caught anew once its order is another', () => {
    const sale = paid(10);
    taken(tick(sale, 'caught'));
    taken(
      editSale(test.desk, test.by('wren'), { sale: String(sale), items: [{ of: 'line', name: 'jade', number: 4 }] }),
    );
    const caught = packing(sale).parcel.catches.reduce((sum, { number }) => sum + number, 0);
    expect(caught).toBe(packing(sale).toSend);
  });
});
