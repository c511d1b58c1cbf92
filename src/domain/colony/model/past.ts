import { addDays, type LocalDay } from '../../day.ts';
import { normalBelow } from '../../water/nitrate/normal.ts';
import { dayNumber } from '../temperature/dayNumber.ts';
import { scale } from './animals.ts';
import { bitsOf, purposes, shareOf, shuffled, streamOf } from './chance.ts';
import { animalRows, broodBoxes, broods, females, males, memberCount, rowCount, young, youngBoxes } from './layout.ts';
import { ratesOf } from './rates.ts';
import { stepDay } from './stepDay.ts';
import { naturalScale, normalScale, traits } from './traits.ts';
import type { ColonyTub } from './tub.ts';

const members = memberCount;

/** Days of the supposed past, and the length of its steps. */
const [pastDays, strideDays] = [260, 2];
/** Saleable animals a litre at its beginning: median, and standard deviation of the logarithm (assumption). */
const [foundedPerLitre, foundedLogSd] = [1.2, 0.8];
/** Of the saleable animals, at most this share a day was taken then (assumption). */
const mostTakenPerDay = 0.015;
/** How far the numbers then stray from what came out, standard deviation of the logarithm: all animals, and the young besides. */
const [animalsLogSd, youngLogSd] = [0.5, 0.5];
/** Share of tubs that were stocked of late, with few young or none yet. */
const freshShare = 0.2;

/**
 * What a tub may hold on a day before anything was counted: each member is a colony founded 260 days before, grown in this tub's own
 * temperatures with its own traits and its own rate of taking, then strayed. So the first count finds young, sexes and broods beside the saleable
 * animals that fit the season and the tub, and all of them uncertain.
 *
 * @returns a state on `day`, before any count
 */
export function supposedColony(tub: ColonyTub, day: LocalDay): Float32Array {
  const numbers = new Float32Array(rowCount * members);
  drawTraits(numbers, tub.id);
  const founded = evenly(tub.id, 100);
  const taken = streamOf(tub.id, 101, purposes.past);
  for (let member = 0; member < members; member++) {
    const grown = tub.netLitres * foundedPerLitre * Math.exp(foundedLogSd * (founded[member] ?? 0));
    numbers[females * members + member] = grown / 2;
    numbers[males * members + member] = grown / 2;
  }
  const today = dayNumber(day);
  for (let back = pastDays; back > 0; back -= strideDays) {
    stepDay(numbers, members, {
      rates: ratesOf(tub.temps(addDays(day, -back)), tub.saleableMm),
      netLitres: tub.netLitres,
      days: strideDays,
      stream: streamOf(tub.id, today - back, purposes.past),
      wobble: 0,
      loggedDeaths: 0,
    });
    for (let member = 0; member < members; member++) {
      const share = mostTakenPerDay * strideDays * shareOf(bitsOf(taken, member));
      scale(numbers, broods, broodBoxes + 2, member, 1 - share);
    }
  }
  stray(numbers, tub.id);
  return numbers;
}

function stray(numbers: Float32Array, tubId: number): void {
  const [all, ofYoung] = [evenly(tubId, 102), evenly(tubId, 103)];
  const fresh = streamOf(tubId, 104, purposes.past);
  for (let member = 0; member < members; member++) {
    const chance = shareOf(bitsOf(fresh, member));
    const settled = chance < freshShare ? (chance / freshShare) ** 2 : 1;
    scale(numbers, young, animalRows, member, Math.exp(animalsLogSd * (all[member] ?? 0)));
    scale(numbers, young, youngBoxes, member, settled * Math.exp(youngLogSd * (ofYoung[member] ?? 0)));
  }
}

function drawTraits(numbers: Float32Array, tubId: number): void {
  traits.forEach((trait, nth) => {
    const [house, own] = [evenly(0, nth), evenly(tubId, nth)];
    for (let member = 0; member < members; member++) {
      const z =
        Math.sqrt(trait.houseShare) * (house[member] ?? 0) + Math.sqrt(1 - trait.houseShare) * (own[member] ?? 0);
      numbers[trait.row * members + member] = naturalScale(trait, normalScale(trait, trait.median) + trait.sd * z);
    }
  });
}

/** Standard normal values, evenly spread over the members in an order of the tub's own: as many above any value as there should be. */
function evenly(tubId: number, which: number): Float64Array {
  const found = new Float64Array(members);
  shuffled(streamOf(tubId, which, purposes.house), members).forEach((member, rank) => {
    found[member] = places[rank] ?? 0;
  });
  return found;
}

const places = Float64Array.from({ length: members }, (_, rank) => normalPlace((rank + 0.5) / members));

/** The standard normal value below which a share lies, by halving; error below 1e-6. */
function normalPlace(share: number): number {
  let [low, high] = [-8, 8];
  for (let halving = 0; halving < 40; halving++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
