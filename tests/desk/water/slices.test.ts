import { expect, it } from 'vitest';
import { addTubs, changePlans, logReading, setLine, waterSlices } from '../../../src/desk/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { taken } from '../../support/sellingDesk.ts';

const read = ({ desk, by }: TestDesk, tub: string, nitrateMgL: number): void => {
  taken(logReading(desk, by('wren'), { tub, values: { nitrateMgL } }));
};

it('concludes nothing else than an answer does, whatever is logged between the slices', () => {
  const worlds = [deskAt('2027-04-13T08:00:00Z'), deskAt('2027-04-13T08:00:00Z')] as const;
  for (const { desk, by } of worlds) {
    taken(setLine(desk, by('wren'), { line: 'jade', priceMinor: 200 }));
    taken(addTubs(desk, by('wren'), { names: ['A1', 'A2', 'A3'], line: 'jade', litres: 30 }));
  }
  const [sliced, plain] = worlds;
  for (const tub of ['A1', 'A2']) for (const world of worlds) read(world, tub, 20);
  const slices = waterSlices(sliced.desk);
  let done = 0;
  for (let slice = slices.next(); slice.done !== true; slice = slices.next()) {
    done += 1;
    if (done === 2) for (const world of worlds) read(world, 'A1', 30);
  }
  expect(done).toBe(6);
  expect(changePlans(sliced.desk)).toEqual(changePlans(plain.desk));
  for (const world of worlds) world.close();
});
