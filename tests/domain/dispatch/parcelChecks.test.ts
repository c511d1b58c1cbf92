import { describe, expect, it } from 'vitest';
import { type CheckStep, day, type Instant, type ParcelCheck, packingState } from '../../../src/domain/index.ts';

const at = '2027-03-15T07:00:00.000Z' as Instant;
const check = (step: CheckStep, number: number | null = null, by = 'wren'): ParcelCheck => ({
  ...{ id: 1, entryId: 1, at, loggedAt: at, by, saleId: 41, step, number, forDay: day('2027-03-15'), catches: [] },
});
const doneIn = (checks: readonly ParcelCheck[], toSend = 23) =>
  packingState(checks, toSend).steps.flatMap(({ step, done }) => (done === null ? [] : [step]));

describe('how far a parcel is packed', () => {
  it('is told step by step, in the order of doing them', () => {
    const state = packingState([check('slip'), check('caught')], 23);
    expect(state.steps.map(({ step }) => step)).toEqual(['caught', 'counted', 'again', 'stood', 'slip', 'label']);
    expect([state.done, doneIn([check('slip'), check('caught')])]).toEqual([2, ['caught', 'slip']]);
  });

  it('takes a count that is not the number to send as not done, until it is counted again', () => {
    const wrong = packingState([check('counted', 22)], 23);
    expect(wrong.steps[1]).toMatchObject({ done: null, miscounted: { number: 22 } });
    expect(doneIn([check('counted', 22), check('counted', 23)])).toEqual(['counted']);
    expect(doneIn([check('counted', 23), check('counted', 22)])).toEqual([]);
    // The order was changed after it was counted.
    expect(doneIn([check('counted', 23)], 24)).toEqual([]);
  });

  it('says when both counts are by one person', () => {
    const both = (second: string) => packingState([check('counted', 23), check('again', 23, second)], 23).countedAlone;
    expect([both('wren'), both('alder')]).toEqual([true, false]);
    expect(packingState([check('counted', 23)], 23).countedAlone).toBe(false);
  });

  it('has only the label to do for a parcel of goods', () => {
    expect(packingState([], 0).steps.map(({ step }) => step)).toEqual(['label']);
  });
});
