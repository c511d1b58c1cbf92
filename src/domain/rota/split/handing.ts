import type { Crew } from './crew.ts';
import type { DoneWork, Owed } from './owed.ts';
import type { Piece } from './piece.ts';

/**
 * What a split costs beside unfairness, in minutes (our choice): a minute of a rack that is not with the one who does the rack · another
 * person along a rack on the same day · a partner's day off their part of it by this many minutes, growing with its square · a piece given
 * to somebody else than was told, of today's above all.
 */
const costs = { change: 3, dayOff: 20, told: 5, toldToday: 50 } as const;

/** A split while it is made: pieces in rack order, day by day, each with the place of its partner. */
export function openHanding(pieces: readonly Piece[], crew: Crew, owed: Owed, done: readonly DoneWork[]) {
  const partners = crew.partners.length;
  const owner = new Int32Array(pieces.length).fill(-1);
  const given = new Float64Array(partners);
  const dayOff = Float64Array.from(owed.byDay.flat(), (minutes) => -minutes);
  const racks = openRacks(pieces, crew, done);

  let cost = 0;

  const give = (index: number, place: number): void => {
    const piece = pieces[index];
    if (piece === undefined) return;
    const before = owner[index] ?? -1;
    cost += costOf(index, place);
    if (before >= 0) put(index, before, -piece.minutes);
    if (place >= 0) put(index, place, piece.minutes);
    owner[index] = place;
  };
  const put = (index: number, place: number, minutes: number): void => {
    given[place] = (given[place] ?? 0) + minutes;
    const cell = place * crew.days + (pieces[index]?.at ?? 0);
    dayOff[cell] = (dayOff[cell] ?? 0) + minutes;
    racks.put(index, place, minutes);
  };

  /** Whether two pieces stand in the same rack on the same day. */
  const sameRow = (one: number, other: number): boolean => {
    const [a, b] = [pieces[one], pieces[other]];
    return a !== undefined && b !== undefined && a.rack !== null && a.rack === b.rack && a.at === b.at;
  };
  const changesBeside = (index: number, place: number): number => {
    let changes = 0;
    for (let mate = index - 1; mate <= index + 1; mate += 2) {
      const other = owner[mate] ?? -1;
      if (other >= 0 && other !== place && sameRow(mate, index)) changes += 1;
    }
    return changes;
  };
  const dayCost = (place: number, at: number, more: number): number =>
    (2 * (dayOff[place * crew.days + at] ?? 0) * more + more * more) / costs.dayOff;

  /** What it adds to the cost of the split to give a piece to another partner; less than 0: it is better there. */
  const costOf = (index: number, place: number): number => {
    const piece = pieces[index];
    const now = owner[index] ?? -1;
    if (piece === undefined || now === place) return 0;
    const { minutes, at, told } = piece;
    let more = racks.costOf(index, minutes, now, place) + costs.change * changesBeside(index, place);
    more += dayCost(place, at, minutes);
    const toldCost = told === null ? 0 : at === 0 ? costs.toldToday : costs.told;
    if (told !== place) more += toldCost;
    if (now >= 0) {
      more += dayCost(now, at, -minutes) - costs.change * changesBeside(index, now);
      if (told !== now) more -= toldCost;
    }
    return more;
  };

  /** What it adds to the cost of the split that two pieces of the same day change hands, each moved alone and then corrected for the other. */
  const costOfSwap = (index: number, mate: number): number => {
    const [one, other] = [pieces[index], pieces[mate]];
    const [mine, theirs] = [owner[index] ?? -1, owner[mate] ?? -1];
    if (one === undefined || other === undefined || mine === theirs) return 0;
    const both = 4 * one.minutes * other.minutes;
    const apart = costOf(index, theirs) + costOf(mate, mine) - both / costs.dayOff;
    if (!sameRow(index, mate)) return apart;
    // Neighbours along a rack stay as far from one another as they were; each move alone brought them together.
    const together = Math.abs(index - mate) === 1 ? 2 * costs.change : 0;
    return apart + both / racks.total(index) + together;
  };

  /** By how much a partner is given more than owed, with `more` minutes added; 0 of who is not measured. */
  const over = (place: number, more = 0): number =>
    owed.counts[place] ? (given[place] ?? 0) + more - (owed.inAll[place] ?? 0) : 0;
  const unfair = (): number => crew.partners.reduce((most, _, place) => Math.max(most, Math.abs(over(place))), 0);

  return {
    pieces,
    partners,
    owner,
    give,
    costOf,
    costOfSwap,
    cost: () => cost,
    given: (place: number): number => given[place] ?? 0,
    over,
    unfair,
    sameRow,
    rackPart: racks.part,
  };
}

export type Handing = ReturnType<typeof openHanding>;

/** Minutes in each rack by partner, done before and given, and how scattered they are: minutes less the sum of squares over them. */
function openRacks(pieces: readonly Piece[], { partners, placeOfUser }: Crew, done: readonly DoneWork[]) {
  const names = [...new Set(pieces.flatMap(({ rack }) => rack ?? []))];
  const numbers = new Map(names.map((rack, number) => [rack, number]));
  const rackOf = Int32Array.from(pieces, ({ rack }) => (rack === null ? -1 : (numbers.get(rack) ?? -1)));
  const own = new Float64Array(names.length * partners.length);
  const total = new Float64Array(names.length);
  for (const [index, { minutes }] of pieces.entries()) {
    const rack = rackOf[index] ?? -1;
    if (rack >= 0) total[rack] = (total[rack] ?? 0) + minutes;
  }
  for (const { rack: name, minutes, userId } of done) {
    const rack = name === null ? undefined : numbers.get(name);
    const place = placeOfUser.get(userId);
    if (rack === undefined || place === undefined) continue;
    own[rack * partners.length + place] = (own[rack * partners.length + place] ?? 0) + minutes;
    total[rack] = (total[rack] ?? 0) + minutes;
  }
  return {
    /** The part of a piece's rack that a partner did before or is given, 0 to 1. */
    part: (index: number, place: number): number => {
      const rack = rackOf[index] ?? -1;
      return rack < 0 ? 0 : (own[rack * partners.length + place] ?? 0) / (total[rack] ?? 1);
    },
    /** Minutes in the rack of a piece, by whomever. */
    total: (index: number): number => total[rackOf[index] ?? -1] ?? 1,
    put: (index: number, place: number, minutes: number): void => {
      const rack = rackOf[index] ?? -1;
      if (rack >= 0) own[rack * partners.length + place] = (own[rack * partners.length + place] ?? 0) + minutes;
    },
    costOf: (index: number, minutes: number, from: number, to: number): number => {
      const rack = rackOf[index] ?? -1;
      if (rack < 0) return 0;
      const gained = 2 * (own[rack * partners.length + to] ?? 0) * minutes + minutes ** 2;
      const lost = from < 0 ? 0 : 2 * (own[rack * partners.length + from] ?? 0) * minutes - minutes ** 2;
      return (lost - gained) / (total[rack] ?? 1);
    },
  };
}
