import { beforeAll, describe, expect, it } from 'vitest';
import { demoCommands } from '../../commands/index.ts';
import { type Fault, search } from './search.ts';
import { worldTemplate } from './world.ts';

/** The long search is `npm run fuzz`; this is the same on a fixed seed. */
const seed = 2027;

describe('whatever people type, press and send', () => {
  const tried = new Map<string, { all: number; refused: number }>();
  let faults: readonly Fault[] = [];
  beforeAll(async () => {
    const template = await worldTemplate();
    faults = await search(template.fresh, {
      seed,
      runs: 20,
      stepsEach: 60,
      onPlayed: ({ name, refused }) => {
        const { all, refused: before } = tried.get(name) ?? { all: 0, refused: 0 };
        tried.set(name, { all: all + 1, refused: before + Number(refused) });
      },
    });
    template.remove();
  });

  it('nothing throws, every answer fits, and a refusal changes nothing', () => {
    expect(faults).toEqual([]);
  });

  it('every command was tried, and most of them were both taken and refused', () => {
    const paths = demoCommands.flatMap(({ leaves }) => leaves).map(({ path }) => `/${path}`);
    expect(paths.filter((path) => !tried.has(path))).toEqual([]);
    const both = paths.map((path) => tried.get(path)).filter((one) => one && one.refused > 0 && one.refused < one.all);
    expect(both.length).toBeGreaterThan(paths.length / 2);
  });
});
