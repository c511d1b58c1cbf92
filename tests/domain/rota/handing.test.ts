import fc from 'fast-check';
import { expect, it } from 'vitest';
import { openCrew } from '../../../src/domain/rota/split/crew.ts';
import { openHanding } from '../../../src/domain/rota/split/handing.ts';
import { owedOf } from '../../../src/domain/rota/split/owed.ts';
import { inRackOrder, type Piece } from '../../../src/domain/rota/split/piece.ts';
import { dueChore, from, person } from '../../support/rotaWorld.ts';

const days = 3;
const crew = openCrew([person('p0'), person('p1'), person('p2', { sharePercent: 20 })], from, days);

const pieces = fc
  .array(
    fc.record({
      at: fc.nat({ max: days - 1 }),
      minutes: fc.constantFrom(1, 4, 7.5, 20),
      rack: fc.constantFrom('A', 'B', null),
      told: fc.constantFrom(null, 0, 1),
      owner: fc.nat({ max: 2 }),
    }),
    { minLength: 2, maxLength: 12 },
  )
  .map((given) =>
    inRackOrder(
      given.map(({ rack, ...more }, nth): Piece & { readonly owner: number } => ({
        ...more,
        rack,
        due: dueChore(nth + 1, 0, { rack: rack ?? 'A' }),
        able: [0, 1, 2],
      })),
    ),
  );

it('costs a swap what it adds once it is made', () => {
  fc.assert(
    fc.property(pieces, (given) => {
      const minutes = Array.from({ length: days }, (_, at) =>
        given.filter((piece) => piece.at === at).reduce((sum, piece) => sum + piece.minutes, 0),
      );
      const handing = openHanding(given, crew, owedOf(crew, minutes, []), []);
      for (const [index, { owner }] of given.entries()) handing.give(index, owner);
      for (const [index, one] of given.entries()) {
        for (const [mate, other] of given.entries()) {
          const [mine, theirs] = [handing.owner[index] ?? -1, handing.owner[mate] ?? -1];
          if (mate <= index || one.at !== other.at || mine === theirs) continue;
          const foretold = handing.costOfSwap(index, mate);
          const before = handing.cost();
          handing.give(index, theirs);
          handing.give(mate, mine);
          expect(handing.cost() - before).toBeCloseTo(foretold, 9);
        }
      }
    }),
  );
});
