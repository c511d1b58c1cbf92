import { afterEach, beforeEach, expect, it } from 'vitest';
import { outletsOf, setOutlet } from '../../src/desk/index.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T16:00:00Z');
});
afterEach(() => bench.close());

const set = (input: Parameters<typeof setOutlet>[2]) => setOutlet(bench.desk, bench.by('wren'), input);

it('takes no fees unless they are said', () => {
  expect(set({ outlet: 'Market' })).toMatchObject({
    value: { added: true, outlet: { percent: 0, fixedMinor: 0, onPostage: false } },
  });
});

it('is changed by its name in any case, and keeps what was not said', () => {
  set({ outlet: 'Market', percent: 8, fixedMinor: 35 });
  expect(set({ outlet: 'market', onPostage: true })).toMatchObject({ value: { added: false } });
  expect(outletsOf(bench.desk)).toMatchObject([{ name: 'Market', percent: 8, fixedMinor: 35, onPostage: true }]);
});

it('refuses a share that cannot be, and a name of nothing', () => {
  expect(set({ outlet: 'Market', percent: 101 })).toMatchObject({
    fault: { kind: 'impossible-amount', amount: 'share' },
  });
  expect(set({ outlet: ' ' })).toMatchObject({ fault: { kind: 'bad-name', noun: 'outlet' } });
  expect(outletsOf(bench.desk)).toEqual([]);
});
