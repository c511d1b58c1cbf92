import {
  claimOn,
  goodsStock,
  homeArea,
  judgeSale,
  logArrival,
  logWeather,
  moveToNext,
  openClaim,
  packingList,
  salesOn,
  sendParcel,
  setGoods,
  settleClaim,
} from '../src/desk/index.ts';
import {
  addDays,
  dayOf,
  type Instant,
  instantAt,
  type LocalDay,
  type WallTime,
  weekdayOf,
} from '../src/domain/index.ts';
import type { ColonyYear } from './colonyYear.ts';
import { goods, zone } from './founding.ts';
import { openRandom } from './random.ts';
import type { Room } from './room.ts';
import { must, type Stage } from './stage.ts';

/** The parcels of the year: how they leave and arrive, and what is claimed. */
export interface ParcelsYear {
  /** The morning's packing. */
  morning(day: LocalDay): void;
  /** What arrived, what is owed for it, and the weather for tomorrow's parcels. */
  evening(day: LocalDay): void;
  sent(): number;
}

/** Part of the animals that does not live through an ordinary journey. */
const deathsOnTheWay = 0.012;
/** Arrivals after which the year has its accidents, each once: some more dead than extras; most of a parcel; a report the day after. */
const accidents = { some: 10, most: 24, later: 38 } as const;

const spareBoxes = 15;

interface OnItsWay {
  readonly sale: number;
  readonly ordered: number;
  readonly animals: number;
  readonly deliveredAt: Instant;
  readonly toldOn: LocalDay;
}

export function openParcelsYear(stage: Stage, room: Room, colonies: ColonyYear, seed: number): ParcelsYear {
  const { desk, clock } = stage;
  const random = openRandom(seed);
  let onTheWay: OnItsWay[] = [];
  const reports: { readonly sale: number; readonly dead: number }[] = [];
  const toSettle: number[] = [];
  const left: Record<keyof typeof accidents, boolean> = { some: true, most: true, later: true };
  let sent = 0;
  let arrived = 0;

  const by = () => stage.by(random.happens(0.7) ? 'partner' : 'owner');

  const send = (sale: number, day: LocalDay, animals: { ordered: number; all: number }): void => {
    clock.pass(random.between(3, 8));
    const tracking = `LS ${String(1000 + sale)}`;
    const parcel = must(sendParcel(desk, by(), { sale: String(sale), tracking }));
    for (const { tub, number } of parcel.catches) colonies.add(tub, -number);
    sent += 1;
    const inDays = random.happens(0.93) ? 1 : 2;
    const deliveredOn = addDays(day, inDays);
    const at = `${String(random.whole(9, 15)).padStart(2, '0')}:${String(random.whole(10, 55))}` as WallTime;
    onTheWay.push({
      sale,
      ordered: animals.ordered,
      animals: animals.all,
      deliveredAt: instantAt(deliveredOn, at, zone),
      toldOn: random.happens(0.85) ? deliveredOn : addDays(deliveredOn, 1),
    });
  };

  /** Dead of a parcel: a few by chance, or an accident where it is time for one. */
  const deadOf = ({ ordered, animals }: OnItsWay): number => {
    const spare = animals - ordered;
    if (left.some && arrived >= accidents.some) {
      left.some = false;
      return Math.min(animals, spare + 2);
    }
    if (left.most && arrived >= accidents.most && ordered <= 12) {
      left.most = false;
      return Math.min(animals, spare + Math.ceil(ordered * 0.7));
    }
    return Array.from({ length: animals }, () => random.happens(deathsOnTheWay)).filter(Boolean).length;
  };

  const arrive = (parcel: OnItsWay): void => {
    arrived += 1;
    clock.pass(random.between(2, 6));
    const { sale, deliveredAt, ordered, animals } = parcel;
    const isLater = left.later && arrived >= accidents.later && dayOf(deliveredAt, zone) === clock.today();
    if (isLater) {
      left.later = false;
      reports.push({ sale, dead: animals - ordered + 1 });
    }
    const dead = isLater ? 0 : deadOf(parcel);
    const logged = must(logArrival(desk, by(), { sale: String(sale), dead, deliveredAt }));
    if (logged.claimOpened) toSettle.push(sale);
  };

  /** A claim is answered the evening after, by what the terms say. */
  const answer = (sale: number): void => {
    clock.pass(random.between(3, 6));
    const { proposal } = must(claimOn(desk, String(sale)));
    must(settleClaim(desk, stage.by('owner'), { sale: String(sale), how: proposal.proposed ?? 'refund' }));
  };

  /** Each parcel takes a box; where they run out, more are fetched first. */
  const useBoxes = (number: number): void => {
    const boxes = goodsStock(desk).find((each) => each.goods.name === goods.boxes)?.goods.stock ?? 0;
    clock.pass(2);
    if (boxes < number)
      must(setGoods(desk, stage.by('partner'), { name: goods.boxes, add: number - boxes + spareBoxes }));
    must(setGoods(desk, stage.by('partner'), { name: goods.boxes, add: -number }));
  };

  /** The evening before: the forecast is typed in, and what can't leave is moved. */
  const lookAhead = (day: LocalDay): void => {
    const tomorrow = addDays(day, 1);
    const { paid, unpaid } = salesOn(desk, tomorrow);
    if (paid.length + unpaid.length === 0) return;
    const arrivesOn = addDays(tomorrow, 1);
    const places = new Set([...paid, ...unpaid].flatMap(({ area }) => area ?? []));
    const looked = [
      ...[tomorrow, arrivesOn].map((ahead) => ({ day: ahead, area: homeArea })),
      ...[...places].map((area) => ({ day: arrivesOn, area })),
    ];
    for (const where of looked) {
      const { lowC, highC } = room.air(where.day);
      clock.pass(1);
      const forecast = { lowC: Math.round(lowC), highC: Math.round(highC) };
      must(logWeather(desk, stage.by('partner'), { ...where, ...forecast }));
    }
    for (const sale of paid) {
      if (judgeSale(desk, sale)?.good === false) must(moveToNext(desk, by(), String(sale.id)));
    }
  };

  return {
    sent: () => sent,
    morning(day) {
      if (weekdayOf(day) > 3) return;
      const { parcels } = packingList(desk, day);
      for (const { sale } of parcels) {
        const animals = sale.items.filter(({ of }) => of === 'line');
        const ordered = animals.reduce((sum, { number }) => sum + number, 0);
        send(sale.id, day, { ordered, all: animals.reduce((sum, { extras }) => sum + extras, ordered) });
      }
      if (parcels.length > 0) useBoxes(parcels.length);
    },
    evening(day) {
      for (const sale of toSettle.splice(0)) answer(sale);
      for (const { sale, dead } of reports.splice(0)) {
        clock.pass(random.between(2, 4));
        const at = instantAt(day, '08:15' as WallTime, zone);
        must(openClaim(desk, by(), { sale: String(sale), dead, at, note: 'found the morning after' }));
        toSettle.push(sale);
      }
      const told = onTheWay.filter(({ toldOn }) => toldOn <= day);
      onTheWay = onTheWay.filter(({ toldOn }) => toldOn > day);
      for (const parcel of told) arrive(parcel);
      lookAhead(day);
    },
  };
}
