import { businessOf, logChange, logTopUp, noteChange, noteReading, tubsInUse } from '../src/desk/index.ts';
import { addDays, type ChangeLogged, daysBetween, type LocalDay, stepGapDays, type Tub } from '../src/domain/index.ts';
import { tubSize } from './founding.ts';
import { openRandom } from './random.ts';
import type { Room } from './room.ts';
import { must, type Stage, type Who } from './stage.ts';
import {
  fillTub,
  kitNitrateMgL,
  nitrateMgL,
  passDay,
  swap,
  type TubWater,
  tdsMgL,
  topUp,
  traitsOf,
  wantedLitres,
} from './tubWater.ts';

/** The water of the year: what it does, and what the two measure and change. */
export interface WaterYear {
  /** A night passes in every tub. */
  pass(day: LocalDay): void;
  /** The evening's round: tests, changes and top-ups that are due. */
  evening(day: LocalDay): void;
  /** Tubs whose change is due by this day, in rack order. */
  dueBy(day: LocalDay): string[];
  /** Tubs that were changed last on this day. */
  changedOn(day: LocalDay): string[];
  /** A change that was logged out of turn. */
  changed(logged: ChangeLogged): void;
  toppedUp(tub: string, litres: number): void;
  tempC(tub: string, day: LocalDay): number;
}

const testEveryDays = 28;
/** A tub that was over the limit is tested again after its next change. */
const retestAfterDays = 11;
const thermometerEveryDays = 21;
/** In the last days they change what the bot plans; before, what they think right, as reckoning a year of plans takes long. */
const plannedDays = 14;
const topUpEveryDays = 7;
/** Half a litre is worth the walk. */
const topUpFromL = 0.5;

const half = (value: number): number => Math.round(value * 2) / 2;
const tenth = (value: number): number => Math.round(value * 10) / 10;

/** Racks K and L are mostly the owner's round, M the partner's. */
const whoseRack = (rack: string): Who => (rack === 'M' ? 'partner' : 'owner');

export function openWaterYear(stage: Stage, room: Room, seed: number): WaterYear {
  const { desk, clock } = stage;
  const random = openRandom(seed);
  const waters = new Map<string, TubWater>();
  const testOn = new Map<string, LocalDay>();
  const changeOn = new Map<string, { dueOn: LocalDay; late: number; last: LocalDay | null }>();
  let dayNumber = 0;

  const of = (tub: string): TubWater => {
    const known = waters.get(tub);
    if (known !== undefined) return known;
    const filled = fillTub(traitsOf(random, tub), tubSize.netLitres, random);
    waters.set(tub, filled);
    return filled;
  };
  const tempC = (tub: string, day: LocalDay): number => room.tempC(day) + of(tub).traits.offsetC;
  const walkOn = (): void => clock.pass(random.between(1, 2.5));

  const test = (tub: Tub, day: LocalDay): void => {
    const { kitStepsMgL, nitrateLimitMgL } = businessOf(desk);
    const water = of(tub.name);
    const readMgL = kitNitrateMgL(water, kitStepsMgL, random);
    const tds = Math.round(tdsMgL(water) / 5) * 5;
    const values = {
      tempC: tenth(tempC(tub.name, day) + 0.1 * random.normal()),
      ph: tenth(7.6 + 0.15 * random.normal()),
      ghDgh: Math.round((10 * tds) / 262),
      khDkh: Math.round((7 * tds) / 262),
      tdsMgL: tds,
      nitrateMgL: readMgL,
    };
    walkOn();
    must(noteReading(desk, stage.by('owner'), { tub: tub.name, values }));
    const wait = readMgL > nitrateLimitMgL ? retestAfterDays : testEveryDays + random.whole(-2, 3);
    testOn.set(tub.name, addDays(day, wait));
  };

  const lookAtThermometer = (tub: Tub, day: LocalDay): void => {
    walkOn();
    const values = { tempC: tenth(tempC(tub.name, day) + 0.2 * random.normal()) };
    must(noteReading(desk, stage.by(whoseRack(tub.rack)), { tub: tub.name, values }));
  };

  const changed = (logged: ChangeLogged): void => {
    swap(of(logged.tub.name), logged.litres);
    const late = random.happens(0.2) ? random.whole(1, 3) : 0;
    changeOn.set(logged.tub.name, { dueOn: logged.next.dueOn, late, last: clock.today() });
  };

  const change = (tub: Tub): void => {
    walkOn();
    const who = random.happens(0.8) ? whoseRack(tub.rack) : 'partner';
    const by = stage.by(who);
    if (daysBetween(clock.today(), stage.today) <= plannedDays) {
      changed(must(logChange(desk, by, { tub: tub.name, second: true })));
      return;
    }
    const business = businessOf(desk);
    const { changeIntervalDays, nitrateLimitMgL } = business;
    const litres = wantedLitres(of(tub.name), business);
    must(noteChange(desk, by, { tub: tub.name, litres, second: true }));
    swap(of(tub.name), litres);
    const isOver = nitrateMgL(of(tub.name)) > 1.15 * nitrateLimitMgL;
    const late = random.happens(0.2) ? random.whole(1, 3) : 0;
    const dueOn = addDays(clock.today(), isOver ? stepGapDays : changeIntervalDays);
    changeOn.set(tub.name, { dueOn, late, last: clock.today() });
  };

  const toppedUp = (tub: string, litres: number): void => {
    const { topUpWater } = of(tub).traits;
    const who = whoseRack(tub.slice(0, 1));
    must(logTopUp(desk, stage.by(who), { tub, litres, water: topUpWater }));
    topUp(of(tub), litres, topUpWater);
  };

  /** A tub that came to the rack today is not changed and tested today. */
  const settleIn = (tub: Tub, index: number, day: LocalDay): void => {
    if (changeOn.has(tub.name)) return;
    const { changeIntervalDays } = businessOf(desk);
    changeOn.set(tub.name, { dueOn: addDays(day, 1 + (index % (changeIntervalDays - 1))), late: 0, last: null });
    testOn.set(tub.name, addDays(day, 1 + (index % 7)));
  };

  return {
    tempC,
    changed,
    toppedUp,
    dueBy: (day) => [...changeOn].filter(([, { dueOn }]) => dueOn <= day).map(([tub]) => tub),
    changedOn: (day) => [...changeOn].filter(([, { last }]) => last === day).map(([tub]) => tub),
    pass(day) {
      dayNumber += 1;
      for (const { name } of tubsInUse(desk)) passDay(of(name), tempC(name, day));
    },
    evening(day) {
      // On the last evening only what was late already is changed: what fell due is left for today.
      const isLast = addDays(day, 1) === stage.today;
      for (const [index, tub] of tubsInUse(desk).entries()) {
        settleIn(tub, index, day);
        const due = changeOn.get(tub.name);
        if ((testOn.get(tub.name) ?? stage.today) <= day) test(tub, day);
        else if ((dayNumber + 5 * index) % thermometerEveryDays === 0) lookAtThermometer(tub, day);
        const isLeft = isLast && due?.dueOn === day;
        if (due !== undefined && !isLeft && addDays(due.dueOn, due.late) <= day) change(tub);
        const litres = half(of(tub.name).missingL);
        if ((dayNumber + tub.rack.charCodeAt(0)) % topUpEveryDays === 0 && litres >= topUpFromL) {
          walkOn();
          toppedUp(tub.name, litres);
        }
      }
    },
  };
}
