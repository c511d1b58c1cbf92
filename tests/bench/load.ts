import {
  addTubs,
  type Desk,
  linesOf,
  setBusiness,
  setGoods,
  setLine,
  setPartner,
  tubsInUse,
} from '../../src/desk/index.ts';
import { type By, type Chore, type Instant, type LocalDay, plusMs, type Tub } from '../../src/domain/index.ts';
import { taken } from '../support/sellingDesk.ts';

const dayMs = 86_400_000;
const tubsPerRack = 8;

/** How large a business is and how long it has been at it. */
export interface Extent {
  readonly tubs: number;
  readonly days: number;
}

/**
 * Fills a fresh desk with the history of a business up to now: a reading, a change and a top-up a week in each tub, a count a month,
 * every chore ticked in its time, a parcel a week for every four tubs, paid, sent and arrived. Figures are made up, and the same each time.
 */
export function loadHistory(desk: Desk, { tubs, days }: Extent): void {
  const now = desk.now();
  let keys = 0;
  const by = (): By => {
    keys += 1;
    return { userId: 'user-wren', name: 'wren', key: `load-${keys}` };
  };
  taken(setPartner(desk, by(), { partner: { userId: 'user-wren', name: 'wren', bot: false } }));
  taken(setPartner(desk, by(), { partner: { userId: 'user-alder', name: 'alder', bot: false } }));
  taken(setBusiness(desk, by(), { region: 'NL', currency: 'EUR', sourceNitrateMgL: 5, sourceTdsMgL: 180 }));
  for (const line of ['jade', 'snow', 'amber']) taken(setLine(desk, by(), { line, priceMinor: 250 }));
  taken(setGoods(desk, by(), { name: 'moss', priceMinor: 400, add: 1000 }));
  for (let nth = 0; nth < tubs; nth += 1) {
    const name = `${String.fromCharCode(65 + Math.floor(nth / tubsPerRack))}${(nth % tubsPerRack) + 1}`;
    taken(addTubs(desk, by(), { names: [name], line: ['jade', 'snow', 'amber'][nth % 3] ?? 'jade', litres: 30 }));
  }
  desk.store.write(() => {
    const inUse = tubsInUse(desk);
    const chores = desk.store.chores.chores();
    for (let back = days; back > 0; back -= 1)
      oneDay(desk, by, { back, at: plusMs(now, -back * dayMs), inUse, chores });
  });
}

interface OneDay {
  /** How many days ago. */
  readonly back: number;
  readonly at: Instant;
  readonly inUse: readonly Tub[];
  readonly chores: readonly Chore[];
}

function oneDay(desk: Desk, by: () => By, { back, at, inUse, chores }: OneDay): void {
  const { store } = desk;
  for (const [nth, tub] of inUse.entries()) {
    const phase = (back + nth) % 28;
    if (phase % 7 === 0) {
      store.water.addReading(store.entries.add(by(), 'reading', `${tub.name} reading`, at), {
        ...{ tubId: tub.id, at, tempC: 20 + (back % 5), ph: 7.4, ghDgh: 8, khDkh: 4, tdsMgL: 240 },
        ...{ ammoniaMgL: 0, nitriteMgL: 0, nitrateMgL: 10 + ((back + nth) % 3) * 5, note: null },
      });
    }
    const entry = (kind: 'change' | 'topup' | 'count'): number =>
      store.entries.add(by(), kind, `${tub.name} ${kind}`, at);
    if (phase % 7 === 1) store.water.addChange(entry('change'), { tubId: tub.id, at, litres: 6, note: null });
    if (phase % 7 === 4) store.water.addTopUp(entry('topup'), { tubId: tub.id, at, litres: 1, water: 'soft' });
    if (phase === 2) {
      // In full every fourth time; at the dish two of five are seen.
      const isFull = Math.floor((back + nth) / 28) % 4 === 0;
      const count = isFull
        ? { saleable: 60 + (nth % 30), juveniles: 40, berried: 10, method: 'full' as const }
        : { saleable: 24 + (nth % 12), juveniles: 20, berried: 5, method: 'dish' as const };
      store.animals.addCount(entry('count'), { ...count, tubId: tub.id, at });
    }
  }
  for (const chore of chores.filter(({ act, everyDays }) => act === 'own' && back % everyDays === 0)) {
    for (const place of placesOf(chore, inUse)) {
      const entry = store.entries.add(by(), 'chore-done', `${chore.name} done`, at);
      store.chores.addDone(entry, { choreId: chore.id, ...place }, at);
    }
  }
  if (back % 7 === 3)
    for (let nth = 0; nth < inUse.length / 4; nth += 1) oneParcel(desk, by, at, inUse[nth * 3 + 1] ?? inUse[0]);
}

function placesOf({ scope }: Chore, inUse: readonly Tub[]): { tubId: number | null; rack: string | null }[] {
  if (scope === 'business') return [{ tubId: null, rack: null }];
  if (scope === 'tub') return inUse.map(({ id }) => ({ tubId: id, rack: null }));
  return [...new Set(inUse.map(({ rack }) => rack))].map((rack) => ({ tubId: null, rack }));
}

function oneParcel({ store, ...desk }: Desk, by: () => By, at: Instant, tub: Tub | undefined): void {
  if (tub === undefined) throw new Error('a parcel without a tub');
  const [line] = linesOf({ store, ...desk }).filter(({ id }) => id === tub.lineId);
  if (line === undefined) throw new Error(`no line of ${tub.name}`);
  const booked = store.entries.add(by(), 'sale', `sale of 10 ${line.name}`, at);
  const sale = store.sales.add(
    booked,
    {
      buyerId: store.sales.addBuyer(booked, `buyer ${booked % 500}`),
      ...{
        area: 'Utrecht',
        region: null,
        dispatchOn: at.slice(0, 10) as LocalDay,
        priceMinor: 2500,
        postageMinor: 700,
      },
      ...{ outletId: null, keptUntil: plusMs(at, 3 * dayMs), cancelled: null },
      items: [{ of: 'line', id: line.id, number: 10, extras: 1, priceMinor: 250 }],
    },
    at,
  );
  store.sales.addPayment(store.entries.add(by(), 'payment', 'paid', at), { saleId: sale, amountMinor: 3200, at });
  const catches = [{ tubId: tub.id, lineId: line.id, number: 11 }];
  store.parcels.addParcel(store.entries.add(by(), 'parcel', 'sent', at), { saleId: sale, tracking: null, at, catches });
  const arrival = { saleId: sale, deliveredAt: plusMs(at, dayMs), dead: sale % 9 === 0 ? 1 : 0, photo: null };
  store.parcels.addArrival(store.entries.add(by(), 'arrival', 'arrived', at), arrival);
}
