import { expect, it } from 'vitest';
import { sellingDeskAt } from '../support/sellingDesk.ts';

it('forgets what was asked while something was being written that is then taken back', () => {
  const test = sellingDeskAt('2027-04-13T08:00:00Z');
  const { store } = test.desk;
  const promised = (): number => store.promises.ofLine(test.jade().line.id, test.desk.now()).number;
  test.sell(4);
  expect([promised(), promised()]).toEqual([4, 4]);
  const broken = (): void =>
    store.write(() => {
      test.sell(10);
      expect([promised(), store.sales.open().length]).toEqual([14, 2]);
      throw new Error('no power');
    });
  expect(broken).toThrow('no power');
  expect([promised(), store.sales.open().length]).toEqual([4, 1]);
  test.close();
});
