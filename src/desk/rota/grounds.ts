import {
  addDays,
  type Business,
  type Chore,
  type ChoreFacts,
  type ChoreGround,
  dayMs,
  dayOf,
  daysBetween,
  type Instant,
  isSouthern,
  plusMs,
  type StockCount,
  type Stretch,
  type Tub,
  type TubGrounds,
} from '../../domain/index.ts';
import { businessOf, type Desk, todayOf } from '../desk.ts';

/** A temperature older than this says nothing of the water now, days. */
const tempKnownDays = 28;
/** Young and eggs that were counted longer ago are grown, days. */
const youngKnownDays = 100;

/** The facts that these chores hang on: temperatures up to `morning`, counts and holds as they are. Only what some chore hangs on is read. */
export function choreFacts(desk: Desk, chores: readonly Chore[], tubs: readonly Tub[], morning: Instant): ChoreFacts {
  const business = businessOf(desk);
  const grounds = new Set(chores.map(({ dependsOn }) => dependsOn));
  return {
    today: todayOf(desk, business),
    zone: business.zone,
    isSouth: isSouthern(business.region),
    tubs: new Map(tubs.map(({ id }) => [id, groundsOf(desk, id, morning, grounds)])),
    claims: grounds.has('claim') ? claimDays(desk, business) : [],
  };
}

function groundsOf(
  { store: { animals, troubles, water } }: Desk,
  tubId: number,
  morning: Instant,
  grounds: ReadonlySet<ChoreGround>,
): TubGrounds {
  const hasYoung = grounds.has('young') || grounds.has('hatch');
  const read = hasYoung || grounds.has('warmth') ? water.latestWith(tubId, 'tempC', morning) : undefined;
  const isKnown = read !== undefined && read.at >= plusMs(morning, -tempKnownDays * dayMs);
  return {
    tempC: isKnown ? read.tempC : null,
    count: hasYoung ? youngCounted(animals.counts(tubId, plusMs(morning, -youngKnownDays * dayMs))) : null,
    hold: grounds.has('hold') ? (animals.latestHold(tubId) ?? null) : null,
    troubleAt: grounds.has('trouble') ? (troubles.latest(tubId)?.at ?? null) : null,
  };
}

/** The last count in which anybody looked for young or eggs. */
const youngCounted = (counts: readonly StockCount[]): StockCount | null =>
  counts.findLast(({ juveniles, berried }) => juveniles !== null || berried !== null) ?? null;

/** Of each parcel on its way, the days from when it can have arrived until its arrival can no longer be reported, slack included. */
function claimDays(desk: Desk, { zone, transitDays, slackDays, claimHours }: Business): Stretch[] {
  const reportedDays = slackDays + Math.ceil(claimHours / 24);
  const today = todayOf(desk);
  return desk.store.rota
    .sentUnheard(plusMs(desk.now(), -(transitDays + reportedDays + 1) * dayMs))
    .map((sentAt) => addDays(dayOf(sentAt, zone), transitDays))
    .map((from) => ({ from, to: addDays(from, reportedDays) }))
    .filter(({ to }) => daysBetween(today, to) >= 0);
}
