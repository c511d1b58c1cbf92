import type { Handing } from './handing.ts';
import type { Owed } from './owed.ts';
import type { Piece } from './piece.ts';

/** The partner among those who may do a piece who is owed most of the whole plan. */
export function mostOwed(handing: Handing, owed: Owed, { able }: Piece): number {
  const left = (place: number): number =>
    owed.counts[place] ? (owed.inAll[place] ?? 0) - handing.given(place) : Number.NEGATIVE_INFINITY;
  return first(able, left);
}

/** A split to begin with: whole racks, the longest first, to whoever did most of them or is owed most; then what belongs to no rack. */
export function giveRacks(handing: Handing, owed: Owed): void {
  const racks = new Map<string, number[]>();
  for (const [index, { rack }] of handing.pieces.entries()) {
    if (rack === null) continue;
    const row = racks.get(rack);
    if (row === undefined) racks.set(rack, [index]);
    else row.push(index);
  }
  const minutesOf = (row: readonly number[]): number =>
    row.reduce((sum, index) => sum + (handing.pieces[index]?.minutes ?? 0), 0);
  const measured = owed.inAll.flatMap((_, place) => (owed.counts[place] ? [place] : []));
  const longestFirst = [...racks.values()].map((row) => ({ row, minutes: minutesOf(row) }));
  longestFirst.sort((a, b) => b.minutes - a.minutes);
  for (const { row, minutes } of longestFirst) {
    const wants = (place: number): number =>
      (owed.inAll[place] ?? 0) - handing.given(place) + minutes * handing.rackPart(row[0] ?? 0, place);
    const taker = measured.length === 0 ? -1 : first(measured, wants);
    for (const index of row) giveOr(handing, owed, index, taker);
  }
  for (const [index, { rack }] of handing.pieces.entries()) if (rack === null) giveOr(handing, owed, index, -1);
}

/**
 * Another one: day by day along the racks, each partner until they have what they owe up to that day.
 */
export function giveDays(handing: Handing, owed: Owed): void {
  const account = owed.inAll.map((all, place) => all - (owed.byDay[place] ?? []).reduce((sum, day) => sum + day, 0));
  let day = -1;
  for (const [index, piece] of handing.pieces.entries()) {
    for (; day < piece.at; day++) {
      for (const [place, days] of owed.byDay.entries()) account[place] = (account[place] ?? 0) + (days[day + 1] ?? 0);
    }
    const left = (place: number): number => account[place] ?? 0;
    const next = piece.able.find((place) => left(place) >= piece.minutes / 2) ?? first(piece.able, left);
    handing.give(index, next);
    account[next] = left(next) - piece.minutes;
  }
}

function giveOr(handing: Handing, owed: Owed, index: number, place: number): void {
  const piece = handing.pieces[index];
  if (piece !== undefined) handing.give(index, piece.able.includes(place) ? place : mostOwed(handing, owed, piece));
}

/** The place that is highest by a measure; of equal ones the first. */
function first(places: readonly number[], measure: (place: number) => number): number {
  let best = places[0] ?? -1;
  for (const place of places) if (measure(place) > measure(best) + 1e-9) best = place;
  return best;
}
