import { openRandom } from '../../seed/random.ts';
import { addDays, type Chore, type DueChore, day, type Instant, type Partner } from '../../src/domain/index.ts';

/** First day of every made-up plan: a Monday. */
export const from = day('2027-04-12');

const addedAt = '2027-01-01T00:00:00.000Z' as Instant;

/** A partner with an equal share who does everything and is never away. */
export const person = (userId: string, more: Partial<Partner> = {}): Partner => ({
  userId,
  name: userId,
  sharePercent: null,
  never: [],
  awayFrom: null,
  awayTo: null,
  owner: false,
  ...more,
});

/** A chore of a tub of its own that falls due in so many days: "chore 3" of tub A3. */
export function dueChore(
  id: number,
  inDays: number,
  more: Partial<Chore> & { readonly rack?: string; readonly to?: string } = {},
): DueChore {
  const { rack = 'A', to, ...given } = more;
  const chore: Chore = {
    id,
    name: `chore ${id}`,
    act: 'own',
    everyDays: 30,
    minutes: 6,
    scope: 'tub',
    season: 'all',
    dependsOn: 'interval',
    userId: null,
    off: false,
    addedAt,
    ...given,
  };
  return {
    chore,
    target: { of: 'tub', tubId: id, name: `${rack}${id}`, rack },
    dueOn: addDays(from, inDays),
    everyDays: chore.everyDays,
    until: null,
    lastDone: null,
    later: null,
    handedTo: to ?? null,
  };
}

/** How large a made-up business is. */
export interface WorldSize {
  readonly tubs: number;
  readonly partners: number;
  /** One partner is away for some of the days, and one never does two of the chores. */
  readonly odd: boolean;
}

/** Chores with their days and minutes, as a starting set has them. */
const kinds = [
  { name: 'look-round', scope: 'business', everyDays: 1, minutes: 5 },
  { name: 'feed', scope: 'rack', everyDays: 2, minutes: 6 },
  { name: 'top-up', scope: 'rack', everyDays: 4, minutes: 10 },
  { name: 'water change', scope: 'tub', everyDays: 7, minutes: 6 },
  { name: 'test nitrate', scope: 'tub', everyDays: 28, minutes: 8 },
  { name: 'front glass', scope: 'tub', everyDays: 14, minutes: 1 },
  { name: 'leaf top-up', scope: 'tub', everyDays: 30, minutes: 1 },
  { name: 'moss trim', scope: 'tub', everyDays: 42, minutes: 10 },
  { name: 'pest look', scope: 'rack', everyDays: 14, minutes: 5 },
  { name: 'grade a line', scope: 'business', everyDays: 14, minutes: 20 },
  { name: 'air stones', scope: 'rack', everyDays: 180, minutes: 15 },
  { name: 'air-line', scope: 'business', everyDays: 90, minutes: 20 },
] as const;

const tubsPerRack = 8;

/** What falls due in a made-up business, and its partners. Each chore's last time lies anywhere in its interval. */
export function rotaWorld(seed: number, { tubs, partners, odd }: WorldSize): { due: DueChore[]; partners: Partner[] } {
  const random = openRandom(seed);
  const whole = (below: number): number => random.whole(0, below - 1);
  const racks = Math.ceil(tubs / tubsPerRack);
  const rackName = (nth: number): string => String.fromCharCode(65 + nth);
  const due = kinds.flatMap((kind, index) => {
    const { chore } = dueChore(index + 1, 0, { ...kind, act: kind.name === 'water change' ? 'change' : 'own' });
    const one = (target: DueChore['target']): DueChore => {
      const inDays = whole(kind.everyDays) - (random.happens(0.03) ? 3 : 0);
      return { ...dueChore(index + 1, inDays, kind), chore, target };
    };
    if (kind.scope === 'business') return [one({ of: 'business' })];
    if (kind.scope === 'rack')
      return Array.from({ length: racks }, (_, nth) => one({ of: 'rack', rack: rackName(nth) }));
    return Array.from({ length: tubs }, (_, nth) => {
      const rack = rackName(Math.floor(nth / tubsPerRack));
      return one({ of: 'tub', tubId: nth + 1, name: `${rack}${(nth % tubsPerRack) + 1}`, rack });
    });
  });
  const people = Array.from({ length: partners }, (_, nth): Partner => {
    const awayFrom = whole(10);
    const isAway = odd && nth === partners - 1;
    return person(`p${nth + 1}`, {
      sharePercent: nth === 0 ? (([null, 60, 70, 45] as const)[whole(4)] ?? null) : null,
      never: odd && nth === 0 ? ['test nitrate', 'pest look'] : [],
      awayFrom: isAway ? addDays(from, awayFrom) : null,
      awayTo: isAway ? addDays(from, awayFrom + 3) : null,
    });
  });
  return { due, partners: people };
}
