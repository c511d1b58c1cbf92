import {
  addSale,
  addTubs,
  businessOf,
  logCount,
  setBusiness,
  setGoods,
  setLine,
  setPartner,
  stock,
} from '../../src/desk/index.ts';
import { extrasFor, type LineStock, mostThatFits, type Result } from '../../src/domain/index.ts';
import { deskAt } from './desk.ts';

/** The value of an act that must not be refused. */
export function taken<T, F>(result: Result<T, F>): T {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.fault)}`);
  return result.value;
}

/** The refusal of an act that must be refused. */
export function faultOf<T, F>(result: Result<T, F>): F {
  if (result.ok) throw new Error(`taken: ${JSON.stringify(result.value)}`);
  return result.fault;
}

/**
 * A desk that can sell: jade in A1 and A2 and snow in B1, 10 breeders held back in each, counted in full; 5 moss. Dutch holidays, dispatch
 * Monday to Wednesday, one day of transit and one of slack.
 */
export function sellingDeskAt(instant: string, counts: { A1?: number; A2?: number; B1?: number } = {}) {
  const test = deskAt(instant);
  const { desk, by } = test;
  taken(setBusiness(desk, by('wren'), { region: 'NL', currency: 'EUR' }));
  for (const name of ['wren', 'alder']) {
    taken(setPartner(desk, by('wren'), { partner: { ...by(name), bot: false } }));
  }
  taken(setLine(desk, by('wren'), { line: 'jade', priceMinor: 200, holdBack: 10 }));
  taken(setLine(desk, by('wren'), { line: 'snow', holdBack: 10 }));
  taken(addTubs(desk, by('wren'), { names: ['A1', 'A2'], line: 'jade', litres: 30 }));
  taken(addTubs(desk, by('wren'), { names: ['B1'], line: 'snow', litres: 30 }));
  for (const [tub, saleable] of Object.entries({ A1: 60, A2: 40, B1: 40, ...counts })) {
    taken(logCount(desk, by('wren'), { tub, saleable, method: 'full' }));
  }
  taken(setGoods(desk, by('wren'), { name: 'moss', priceMinor: 400, add: 5, keepAtLeast: 2 }));
  test.advance({ minutes: 1 });

  const extrasOf = (number: number): number =>
    extrasFor(number, { sent: 0, dead: 0 }, businessOf(desk).fullOrderLevelPercent);
  const jade = (): LineStock => {
    const [found] = taken(stock(desk, 'jade'));
    if (found === undefined) throw new Error('no jade');
    return found;
  };

  return {
    ...test,
    jade,
    /** Extras of so many animals while no arrival was recorded. */
    extrasOf,
    /** The largest order of jade that what is free bears, and its extras, while no arrival was recorded. */
    largest: () => mostThatFits(1000, jade().free, extrasOf),
    /** What would be free of jade now had nothing happened since the counts: by another desk, with the same counts at the same time. */
    freeUntouched: (): number => {
      const twin = sellingDeskAt(instant, counts);
      twin.advance({ minutes: (Date.parse(desk.now()) - Date.parse(twin.desk.now())) / 60_000 });
      const { free } = twin.jade();
      twin.close();
      return free;
    },
    /** Books so many jade for a buyer; the sale. */
    sell: (number: number, more: Partial<Parameters<typeof addSale>[2]> = {}) =>
      taken(addSale(desk, by('alder'), { items: [{ of: 'line', name: 'jade', number }], ...more })).sale,
  };
}
