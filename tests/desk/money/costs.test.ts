import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addTubs, costsIn, editTub, logCost, setLine, undo } from '../../../src/desk/index.ts';
import { day, type Instant } from '../../../src/domain/index.ts';
import { rowCounts } from '../../support/rowCounts.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-10T09:00:00Z');
});
afterEach(() => test.close());

type Input = Parameters<typeof logCost>[2];
const spend = (input: Partial<Input> = {}, name = 'wren') =>
  logCost(test.desk, test.by(name), { amountMinor: 1250, what: 'flakes', ...input });
const march = { first: day('2027-03-01'), last: day('2027-03-31') };
const inMarch = (): string[] =>
  costsIn(test.desk, march).map(({ what, kind, amountMinor }) => `${what} ${kind} ${amountMinor}`);

describe('a cost', () => {
  it('is kept with its kind, its moment and its tub, whose line bears it', () => {
    const at = '2027-03-02T10:00:00.000Z' as Instant;
    const logged = taken(spend({ kind: 'gear', what: ' sponge ', tub: 'b1', at }));
    expect(logged.cost).toMatchObject({
      ...{ amountMinor: 1250, what: 'sponge', kind: 'gear', at, by: 'wren' },
      tub: { name: 'B1', lineName: 'snow' },
    });
    expect(logged.kindInMonthMinor).toBe(1250);
    expect(taken(spend({ kind: 'gear', what: 'hose', amountMinor: 300 })).kindInMonthMinor).toBe(1550);
  });

  it('is of the kind that its words say, else other', () => {
    taken(spend({ what: 'Postage 41', amountMinor: 1 }));
    taken(spend({ what: 'scissors', amountMinor: 2 }));
    expect(inMarch()).toEqual(['Postage 41 postage 1', 'scissors other 2']);
  });

  it('twice of the same amount, kind and tub on a day is asked about, whoever logged it', () => {
    taken(spend({ kind: 'feed' }));
    expect(faultOf(spend({ kind: 'feed', what: 'fish food' }, 'alder'))).toMatchObject({
      ...{ kind: 'ask-cost-twice', amountMinor: 1250, what: 'flakes', by: 'wren' },
    });
    taken(spend({ kind: 'feed', what: 'more flakes', again: true }, 'alder'));
    taken(spend({ kind: 'feed', tub: 'A1' }));
    taken(spend({ kind: 'feed', tub: 'A2' }));
    taken(spend({ kind: 'other' }));
    test.advance({ days: 1 });
    taken(spend({ kind: 'feed' }));
    expect(inMarch()).toHaveLength(6);
  });

  it('can be undone, and its tub only after it', () => {
    taken(addTubs(test.desk, test.by('wren'), { names: ['C1'], line: 'jade', litres: 30 }));
    const tubEntry = test.desk.store.entries.latest(1)[0]?.id ?? 0;
    const { entryId } = taken(spend({ kind: 'tub', tub: 'C1' }));
    const fault = faultOf(undo(test.desk, test.by('wren'), true, tubEntry));
    expect(fault).toMatchObject({ kind: 'others-rest-on-it', later: ['cost, tub: flakes'] });
    taken(undo(test.desk, test.by('wren'), false, entryId));
    expect(inMarch()).toEqual([]);
    taken(spend({ kind: 'tub' }));
  });

  it('stays with the line that was in its tub then', () => {
    taken(spend({ tub: 'A1' }));
    test.advance({ days: 1 });
    taken(setLine(test.desk, test.by('wren'), { line: 'amber' }));
    taken(editTub(test.desk, test.by('wren'), { tub: 'A1', name: 'Z1', line: 'amber', sure: true }));
    test.advance({ days: 1 });
    taken(spend({ tub: 'Z1' }));
    const before = '2027-01-05T10:00:00.000Z' as Instant;
    expect(taken(spend({ tub: 'Z1', at: before })).cost.tub).toMatchObject({ name: 'Z1', lineName: 'jade' });
    expect(costsIn(test.desk, march).map(({ tub }) => [tub?.name, tub?.lineName])).toEqual([
      ['Z1', 'jade'],
      ['Z1', 'amber'],
    ]);
  });

  it.each<[string, Partial<Input>, string]>([
    ['of nothing', { amountMinor: 0 }, 'nothing-given'],
    ['for nothing', { what: '  ' }, 'nothing-given'],
    ['for a tub that is not there', { tub: 'Q9' }, 'unknown'],
    ['of tomorrow', { at: '2027-03-11T10:00:00.000Z' as Instant }, 'in-the-future'],
  ])('%s is refused and leaves nothing behind', (_, input, kind) => {
    const before = rowCounts(test.folder);
    expect(faultOf(spend(input)).kind).toBe(kind);
    expect(rowCounts(test.folder)).toEqual(before);
  });

  it('falls in the month of its local day', () => {
    taken(spend({ at: '2027-02-28T23:30:00.000Z' as Instant }));
    expect(inMarch()).toHaveLength(1);
  });
});
