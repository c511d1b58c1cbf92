import { bitsOf, eventsOf, noiseOf } from './chance.ts';
import {
  broodBoxes,
  broods,
  crowd,
  femaleLean,
  females,
  fertility,
  growth,
  males,
  mortality,
  shrimpletBoxes,
  trend,
  warmth,
  youngBoxes,
} from './layout.ts';
import { crowdingStep, crowdingTable, type DailyRates } from './rates.ts';

/** What a step needs beside the state. */
export interface Step {
  readonly rates: DailyRates;
  readonly netLitres: number;
  /** Length of the step, days: 1 in a replay, a few in a look ahead. */
  readonly days: number;
  /** Where the step's draws begin (`streamOf`). */
  readonly stream: number;
  /** Standard deviation of what moves the number of saleable animals and is not in the model, share of them. */
  readonly wobble: number;
  /** Deaths in these days that were logged as losses already, animals. */
  readonly loggedDeaths: number;
}

/** Room that a young animal takes, of a grown one's (assumption). */
const [shrimpletRoom, juvenileRoom] = [0.1, 0.45];
/** However crowded, things go on at a twentieth of their speed. */
const leastSpace = 0.05;

/**
 * Takes the members a step on, in place. Young pass box by box to saleable length, at a speed and with losses that crowding worsens; free females
 * begin broods, which hatch after a time; saleable animals die. Shares a day come from `rates`, times the member's own factors; births, growing up
 * and deaths scatter as their numbers do (Poisson).
 *
 *   box' = box·live − on + from the box before, on = box·live·min(0.9, boxes·pace·space)        space: `crowding`
 *
 * The means are those of a linear chain of boxes (linear chain trick, Erlang-distributed times; from memory).
 *
 * @param numbers state of `members` members, rows as in layout.ts
 */
export function stepDay(
  numbers: Float32Array,
  members: number,
  { rates, netLitres, days, stream, wobble, loggedDeaths }: Step,
): void {
  // Taken once: the loop runs millions of times a replay, and imported names are looked up at each use.
  const [shrimplets, boxes, stages] = [shrimpletBoxes, youngBoxes, broodBoxes];
  const [crowding, perStep, lastStep] = [crowdingTable, crowdingStep, crowdingTable.length - 1];
  const broodRow = broods * members;
  const [femaleRow, maleRow] = [females * members, males * members];
  const [growthRow, fertilityRow, mortalityRow] = [growth * members, fertility * members, mortality * members];
  const [crowdRow, warmthRow] = [crowd * members, warmth * members];
  const [leanRow, trendRow] = [femaleLean * members, trend * members];
  const eggsLive = Math.exp(-rates.eggDeath * days);
  const starts = Math.min(0.5, rates.broodStart * days);

  for (let member = 0; member < members; member++) {
    const bits = bitsOf(stream, member);
    const moreBits = bitsOf(bits, member);
    const warm = numbers[warmthRow + member] ?? 0;
    const femalesNow = numbers[femaleRow + member] ?? 0;
    const malesNow = numbers[maleRow + member] ?? 0;
    const grown = femalesNow + malesNow;

    let small = 0;
    for (let box = 0; box < shrimplets; box++) small += numbers[box * members + member] ?? 0;
    let middling = 0;
    for (let box = shrimplets; box < boxes; box++) middling += numbers[box * members + member] ?? 0;
    const perLitre = (grown + juvenileRoom * middling + shrimpletRoom * small) / netLitres;
    const place = (perLitre * (numbers[crowdRow + member] ?? 0)) / perStep;
    const space = Math.max(leastSpace, crowding[place < lastStep ? place | 0 : lastStep] ?? leastSpace);

    const eggPace = Math.max(0, rates.eggPace + rates.eggPaceSlope * warm) * days * stages;
    const eggsOn = Math.min(0.95, eggPace);
    let carried = 0;
    let hatched = 0;
    for (let stage = 0; stage < stages; stage++) {
      const at = broodRow + stage * members + member;
      const here = (numbers[at] ?? 0) * eggsLive;
      const on = here * eggsOn;
      numbers[at] = here - on + hatched;
      carried += here;
      hatched = on;
    }
    const free = femalesNow - carried;
    if (free > 0) numbers[broodRow + member] = (numbers[broodRow + member] ?? 0) + free * starts;

    const pace = Math.max(0, rates.pace + rates.paceSlope * warm) * (numbers[growthRow + member] ?? 0);
    const paced = pace * space * days * boxes;
    const goOn = Math.min(0.9, paced);
    const smallLive = 1 / (1 + (rates.shrimpletDeath * days) / space);
    const middlingLive = 1 / (1 + (rates.juvenileDeath * days) / space);
    let coming = eventsOf(hatched, bits >>> 16) * rates.broodYoung * (numbers[fertilityRow + member] ?? 0);
    for (let box = 0; box < boxes; box++) {
      const at = box * members + member;
      const here = (numbers[at] ?? 0) * (box < shrimplets ? smallLive : middlingLive);
      const on = here * goOn;
      numbers[at] = here - on + coming;
      coming = on;
    }

    const dying = grown * Math.min(0.5, rates.saleableDeath * (numbers[mortalityRow + member] ?? 0) * days);
    const dead = dying > loggedDeaths ? eventsOf(dying - loggedDeaths, moreBits >>> 16) : 0;
    const grownUp = eventsOf(coming, moreBits & 0xffff);
    const sway = wobble * noiseOf(bits & 0xffff) + (numbers[trendRow + member] ?? 0) * days;
    const staying = grown > dead ? (1 - dead / grown) * Math.max(0, 1 + sway) : 0;
    const leaning = rates.femaleShare + rates.femaleSd * (numbers[leanRow + member] ?? 0);
    const share = Math.min(0.95, Math.max(0.05, leaning));
    numbers[femaleRow + member] = femalesNow * staying + grownUp * share;
    numbers[maleRow + member] = malesNow * staying + grownUp * (1 - share);
    if (staying >= 1) continue;
    for (let stage = 0; stage < stages; stage++) {
      const at = broodRow + stage * members + member;
      numbers[at] = (numbers[at] ?? 0) * staying;
    }
  }
}
