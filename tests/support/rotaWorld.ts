import { addDays, type Chore, type DueChore, day, type Instant, type Partner } from '../../src/domain/index.ts';

/** First day of every made-up plan: a Monday. */
export const from = day('2027-04-12');

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

/** Numbers from 0 to below 1, the same for the same seed (mulberry32, public domain, constants from memory). */
export function openChance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let bits = Math.imul(state ^ (state >>> 15), state | 1);
    bits ^= bits + Math.imul(bits ^ (bits >>> 7), bits | 61);
    return ((bits ^ (bits >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** What falls due in a made-up business, and its partners. Each chore's last time lies anywhere in its interval. */
export function rotaWorld(seed: number, { tubs, partners, odd }: WorldSize): { due: DueChore[]; partners: Partner[] } {
  const chance = openChance(seed);
  const whole = (below: number): number => Math.floor(chance() * below);
  const racks = Math.ceil(tubs / tubsPerRack);
  const rackName = (nth: number): string => String.fromCharCode(65 + nth);
  const due = kinds.flatMap((kind, index) => {
    const chore: Chore = {
      ...kind,
      id: index + 1,
      act: kind.name === 'water change' ? 'change' : 'own',
      season: 'all',
      dependsOn: 'interval',
      userId: null,
      off: false,
      addedAt: '2027-01-01T00:00:00.000Z' as Instant,
    };
    const one = (target: DueChore['target']): DueChore => ({
      chore,
      target,
      dueOn: addDays(from, whole(kind.everyDays) - (chance() < 0.03 ? 3 : 0)),
      everyDays: kind.everyDays,
      until: null,
      lastDone: null,
      later: null,
      handedTo: null,
    });
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
    return {
      userId: `p${nth + 1}`,
      name: `p${nth + 1}`,
      sharePercent: nth === 0 ? (([null, 60, 70, 45] as const)[whole(4)] ?? null) : null,
      never: odd && nth === 0 ? ['test nitrate', 'pest look'] : [],
      awayFrom: isAway ? addDays(from, awayFrom) : null,
      awayTo: isAway ? addDays(from, awayFrom + 3) : null,
      owner: false,
    };
  });
  return { due, partners: people };
}
