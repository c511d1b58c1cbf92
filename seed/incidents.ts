import {
  addTubs,
  editChore,
  handOverChore,
  logChange,
  logCount,
  logReading,
  putOffChore,
  setBusiness,
  setHold,
  setPartner,
  stock,
  undo,
} from '../src/desk/index.ts';
import { addDays, daysBetween, type LocalDay, spareOf } from '../src/domain/index.ts';
import type { ColonyYear } from './colonyYear.ts';
import { quarantine, tubSize } from './founding.ts';
import { must, type Stage } from './stage.ts';
import type { WaterYear } from './waterYear.ts';

/** What happens once: each on the first evening, from so many days before today on, on which it can. */
interface Incident {
  readonly daysBefore: number;
  /** Whether it happened; if not, it is tried again the next day. */
  readonly happens: (day: LocalDay) => boolean;
}

/** What is out of the ordinary in the year. */
export interface Incidents {
  evening(day: LocalDay): void;
}

export function openIncidents(stage: Stage, water: WaterYear, colonies: ColonyYear): Incidents {
  const waiting: Incident[] = [...pastIncidents(stage, water, colonies), ...ofTheLastWeeks(stage, water, colonies)];
  return {
    evening(day) {
      const before = daysBetween(day, stage.today);
      const happened = waiting.filter(({ daysBefore, happens }) => daysBefore >= before && happens(day));
      for (const incident of happened) waiting.splice(waiting.indexOf(incident), 1);
    },
  };
}

function pastIncidents(stage: Stage, water: WaterYear, colonies: ColonyYear): Incident[] {
  const { desk, clock } = stage;
  return [
    {
      daysBefore: 300,
      // The owner did not see that the partner had changed the tub the evening before; the bot asks, and it really was a second one.
      happens(day) {
        const [tub] = water.changedOn(addDays(day, -1));
        if (tub === undefined) return false;
        clock.pass(2);
        const input = { tub, litres: 5, note: 'second change: smelt of old food' };
        const first = logChange(desk, stage.by('owner'), input);
        if (first.ok || first.fault.kind !== 'ask-changed-already') throw new Error(`${tub}: a second change passed`);
        clock.pass(1);
        water.changed(must(logChange(desk, stage.by('owner'), { ...input, second: true })));
        return true;
      },
    },
    {
      daysBefore: 258,
      happens(day) {
        const [from, to] = [addDays(day, 3), addDays(day, 13)];
        const partner = { ...stage.users.partner, bot: false };
        clock.pass(1);
        must(setPartner(desk, stage.by('partner'), { partner, awayFrom: from, awayTo: to }));
        stage.sendAway('partner', from, to);
        return true;
      },
    },
    {
      daysBefore: 210,
      // Evaporation replaced, logged as a change by a slip, undone, and logged again as what it was.
      happens(day) {
        const [tub] = water.dueBy(day);
        if (tub === undefined) return false;
        clock.pass(2);
        const slip = must(logChange(desk, stage.by('partner'), { tub, litres: 1.5, second: true }));
        clock.pass(1);
        must(undo(desk, stage.by('partner'), false, slip.entryId));
        clock.pass(1);
        water.toppedUp(tub, 1.5);
        return true;
      },
    },
    {
      daysBefore: 165,
      happens(day) {
        const tub = sparableTub(stage, colonies);
        if (tub === undefined) return false;
        clock.pass(2);
        must(setHold(desk, stage.by('owner'), { tub, reason: 'treated against hydra', until: addDays(day, 14) }));
        return true;
      },
    },
    {
      daysBefore: 120,
      happens() {
        clock.pass(2);
        must(putOffChore(desk, stage.by('owner'), { chore: 'pump foam', reason: 'new foam is in the post' }));
        clock.pass(1);
        const handed = { chore: 'pest look by torch', tub: 'K1', partner: stage.users.partner };
        must(handOverChore(desk, stage.by('owner'), handed));
        return true;
      },
    },
    {
      daysBefore: 90,
      // Tap water is measured anew twice a year.
      happens() {
        clock.pass(2);
        must(setBusiness(desk, stage.by('owner'), { sourceNitrateMgL: 7 }));
        return true;
      },
    },
    {
      daysBefore: 56,
      // Each had thought that the other looked.
      happens() {
        clock.pass(1);
        must(editChore(desk, stage.by('owner'), true, { chore: 'look-round', off: false }));
        return true;
      },
    },
  ];
}

function ofTheLastWeeks(stage: Stage, water: WaterYear, colonies: ColonyYear): Incident[] {
  const { desk, clock } = stage;
  let ill: string | undefined;
  return [
    {
      daysBefore: 24,
      happens() {
        clock.pass(5);
        must(addTubs(desk, stage.by('owner'), { ...quarantine, ...tubSize }));
        const [tub] = quarantine.names;
        clock.pass(3);
        must(logCount(desk, stage.by('owner'), { tub, saleable: 14, method: 'full' }));
        colonies.settle(tub, 14);
        clock.pass(1);
        const until = addDays(stage.today, 9);
        must(setHold(desk, stage.by('owner'), { tub, reason: 'quarantine: new blood from another keeper', until }));
        return true;
      },
    },
    {
      daysBefore: 4,
      happens() {
        ill = sparableTub(stage, colonies);
        if (ill === undefined) return false;
        clock.pass(2);
        colonies.lose(ill, 4, 'not known');
        clock.pass(1);
        must(setHold(desk, stage.by('owner'), { tub: ill, reason: 'trouble: four dead in a night', until: null }));
        clock.pass(6);
        const values = { ammoniaMgL: 0.25, nitriteMgL: 0.5, tempC: tenth(water.tempC(ill, clock.today())), ph: 7.6 };
        const note = 'a dead snail under the moss';
        must(logReading(desk, stage.by('owner'), { tub: ill, values, note }));
        clock.pass(8);
        const change = { tub: ill, percent: 20, second: true, note: 'first aid' };
        water.changed(must(logChange(desk, stage.by('partner'), change)));
        return true;
      },
    },
    {
      daysBefore: 1,
      happens() {
        if (ill === undefined) return true;
        clock.pass(2);
        colonies.lose(ill, 2, 'not known');
        clock.pass(3);
        const values = { ammoniaMgL: 0.25, nitriteMgL: 1, tempC: tenth(water.tempC(ill, clock.today())), ph: 7.5 };
        must(logReading(desk, stage.by('owner'), { tub: ill, values }));
        return true;
      },
    },
  ];
}

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** A breeding tub without which its line still keeps its promises; undefined where there is none. */
function sparableTub({ desk }: Stage, colonies: ColonyYear): string | undefined {
  const lines = must(stock(desk));
  return lines
    .flatMap(({ line, tubs }) => tubs.map((each) => ({ line, each, spare: spareOf(each, line) })))
    .filter(({ each }) => each.tub.role === 'breeding' && each.offSale === null && (each.saleable ?? 0) >= 8)
    .find(({ line, spare }) => colonies.bears(line.name, spare + 4))?.each.tub.name;
}
