import {
  addChore,
  addTubs,
  editChore,
  setBusiness,
  setGoods,
  setLine,
  setOutlet,
  setPartner,
  setSeason,
} from '../src/desk/index.ts';
import type { MonthDay, TubRole } from '../src/domain/index.ts';
import { must, type Stage } from './stage.ts';

export const zone = 'Europe/Ljubljana';
export const region = 'SI';

/** Some tubs of one line. */
interface Shelf {
  readonly names: readonly string[];
  readonly line: string;
  readonly role: TubRole;
}

const named = (rack: string, from: number, to: number): string[] =>
  Array.from({ length: to - from + 1 }, (_, index) => `${rack}${from + index}`);

/** Three racks; the place for a quarantine tub, M7, is still empty. */
const shelves: readonly Shelf[] = [
  { names: named('K', 1, 5), line: 'Jade', role: 'breeding' },
  { names: ['K6'], line: 'Jade', role: 'raising' },
  { names: ['K7'], line: 'Jade', role: 'selling' },
  { names: named('L', 1, 4), line: 'Chocolate', role: 'breeding' },
  { names: ['L5'], line: 'Chocolate', role: 'raising' },
  { names: ['L6'], line: 'Chocolate', role: 'selling' },
  { names: ['L7'], line: 'Snow', role: 'selling' },
  { names: named('M', 1, 5), line: 'Snow', role: 'breeding' },
  { names: ['M6'], line: 'Snow', role: 'raising' },
];

export const quarantine = { names: ['M7'], line: 'Jade', role: 'apart' } as const;

/** Gross and net litres of every tub. */
export const tubSize = { litres: 32, netLitres: 26 } as const;

/** Moss that stood with the Jade tubs may carry their young. */
export const goods = { moss: 'moss cushion', leaves: 'leaf bag', boxes: 'parcel box' } as const;

export const outlet = 'hobby market';

/** The first morning: who they are, what they breed and sell, where and by what rules. */
export function found(stage: Stage): void {
  const { desk, clock, users } = stage;
  must(
    setBusiness(desk, stage.by('owner'), {
      name: 'The Linden Shelf',
      zone,
      region,
      currency: 'EUR',
      sourceNitrateMgL: 6,
      sourceTdsMgL: 260,
      sourceGhDgh: 10,
      sourceKhDkh: 7,
      changeMinPercent: 15,
      changeMaxPercent: 30,
      changeIntervalDays: 10,
      minTempC: 3,
      maxTempC: 28,
      keepDays: 4,
      claimHours: 48,
      claimPhoto: false,
      fullOrderLevelPercent: 97,
    }),
  );
  const person = (who: 'owner' | 'partner') => ({ ...users[who], bot: false });
  must(setPartner(desk, stage.by('owner'), { partner: person('owner'), sharePercent: 60 }));
  clock.pass(2);
  must(setPartner(desk, stage.by('owner'), { partner: person('partner'), sharePercent: 40, never: ['test nitrate'] }));
  foundRacks(stage);
  foundShop(stage);
}

function foundRacks(stage: Stage): void {
  const { desk, clock } = stage;
  for (const [line, priceMinor, saleableMm, holdBack] of [
    ['Jade', 280, 15, 12],
    ['Chocolate', 340, 16, 14],
    ['Snow', 260, 14, 12],
  ] as const) {
    clock.pass(1);
    must(setLine(desk, stage.by('owner'), { line, priceMinor, saleableMm, holdBack }));
  }
  for (const shelf of shelves) {
    clock.pass(2);
    must(addTubs(desk, stage.by('owner'), { ...shelf, ...tubSize }));
  }
  clock.pass(5);
  for (const edit of [
    { chore: 'top-up', everyDays: 7 },
    { chore: 'feed', everyDays: 3 },
    // It goes without saying, until they find that it does not: see incidents.ts.
    { chore: 'look-round', off: true },
  ]) {
    clock.pass(1);
    must(editChore(desk, stage.by('owner'), true, edit));
  }
  clock.pass(1);
  const lids = { name: 'wipe lids', everyDays: 21, minutes: 12, scope: 'rack', partner: stage.users.partner } as const;
  must(addChore(desk, stage.by('partner'), lids));
}

function foundShop(stage: Stage): void {
  const { desk, clock } = stage;
  for (const input of [
    { name: goods.moss, priceMinor: 390, add: 24, line: 'Jade', keepAtLeast: 6 },
    { name: goods.leaves, priceMinor: 150, add: 40, keepAtLeast: 10 },
    { name: goods.boxes, add: 30, keepAtLeast: 12 },
  ]) {
    clock.pass(2);
    must(setGoods(desk, stage.by('partner'), input));
  }
  clock.pass(3);
  must(setOutlet(desk, stage.by('partner'), { outlet, percent: 7, fixedMinor: 30, onPostage: true }));
  const md = (text: string): MonthDay => text as MonthDay;
  clock.pass(3);
  must(setSeason(desk, stage.by('owner'), { name: 'winter', from: md('11-20'), to: md('03-15') }));
  clock.pass(1);
  must(setSeason(desk, stage.by('owner'), { name: 'heat', from: md('07-20'), to: md('08-15') }));
}
