import { berriedOf, grownOf, juvenilesOf, setBerried, setGrown } from './animals.ts';
import { type Draft, widthOf, withMiss } from './colony.ts';
import type { CountSeen } from './event.ts';
import { follow } from './follow.ts';
import { crowd, dishShare, fertility, glanceShare, growth, juvenileShare, memberCount, warmth } from './layout.ts';
import {
  animalsAt,
  type CountError,
  countLikelihood,
  type Likelihood,
  logNumber,
  passesLikelihood,
} from './likelihood.ts';
import { rankUpdate } from './rankUpdate.ts';
import { judge, type Surprise } from './surprise.ts';
import type { Trait } from './traits.ts';

const members = memberCount;

/**
 * How each way of counting errs (assumptions, common practice, no source). Full: the tub is stripped out, yet a few are missed. Dish, glance: an
 * unknown share shows, learnt per tub (`dishShare`, `glanceShare`), and differs from time to time.
 */
const full: CountError = { logSd: 0.035, finds: 0.975 };
const eyes = {
  dish: { row: dishShare, error: { logSd: 0.25, finds: 0.4 } },
  glance: { row: glanceShare, error: { logSd: 0.35, finds: 0.4 } },
} as const;
/** Weight, in counts, of the errors above against a tub's own. */
const eyeTrust = 8;

/** Juveniles found, of those that a full count finds; females with eggs seen, of all; and the errors of both. */
const looks = {
  full: { juveniles: 1, berried: 0.85, logSd: 0.3 },
  passes: { juveniles: 1, berried: 0.85, logSd: 0.3 },
  dish: { juveniles: 0.5, berried: 0.4, logSd: 0.5 },
  glance: { juveniles: 0.5, berried: 0.4, logSd: 0.6 },
} as const;

/** Takes a count in, in place: the saleable animals, then what else was counted. Returns what was not expected of it. */
export function observe(draft: Draft, count: CountSeen): Surprise[] {
  const { method, juveniles, berried } = count;
  const saleable =
    method === 'dish' || method === 'glance' ? seenInPart(draft, count, method) : seenInFull(draft, count);
  const found = [saleable];
  if (juveniles !== null) found.push(seenJuveniles(draft, count, juveniles));
  if (berried !== null) found.push(seenBerried(draft, count, berried));
  return found.filter((surprise) => surprise !== null);
}

/**
 * Share of a prior that is left to what the model knows nothing of, such as a mishap, or a sale never logged (assumption): it lets a count that
 * contradicts all members be believed.
 */
const unknownShare = 0.05;

const everyTrait = (): boolean => true;

/** A full count, or removal passes: it is the saleable animals themselves that were counted. */
function seenInFull(draft: Draft, { entryId, saleable, passes }: CountSeen): Surprise | null {
  const { numbers } = draft;
  const found = passes === null ? full.finds : 1;
  const y = expected((member) => grownOf(numbers, member) * found);
  const seen = passes === null ? countLikelihood(saleable, full) : passesLikelihood(passes);
  const { surprise, z, ofModel } = judge(entryId, 'saleable', saleable, y, seen);
  draft.model = withMiss(draft.model, z, ofModel);
  takeIn(numbers, y, seen, everyTrait, (member, animals) => setGrown(numbers, member, animals / found));
  return surprise;
}

/** Animals at the dish or in view. What is learnt goes to their number and to the share that shows, as both were in doubt. */
function seenInPart(draft: Draft, { entryId, saleable }: CountSeen, method: keyof typeof eyes): Surprise | null {
  const { numbers } = draft;
  const { row, error } = eyes[method];
  const share = (member: number): number => Math.min(1, numbers[row * members + member] ?? 1);
  const y = expected((member) => grownOf(numbers, member) * share(member));
  const width = widthOf(draft[method], eyeTrust, 0.5, 2);
  const seen = countLikelihood(saleable, { ...error, logSd: error.logSd * width });
  const { surprise, z, ofModel } = judge(entryId, 'saleable', saleable, y, seen);
  draft.model = withMiss(draft.model, z, ofModel);
  draft[method] = withMiss(draft[method], z, 1 - ofModel);
  takeIn(numbers, y, seen, everyTrait, (member, animals) => setGrown(numbers, member, animals / share(member)));
  return surprise;
}

/** Traits that young tell of. The saleable animals were counted themselves, at the same time and better. */
const youngTraits: readonly number[] = [growth, fertility, crowd, juvenileShare, warmth];
const toldByYoung = ({ row }: Trait): boolean => youngTraits.includes(row);

function seenJuveniles({ numbers }: Draft, { entryId, method }: CountSeen, counted: number): Surprise | null {
  const look = looks[method];
  const y = expected(
    (member) => juvenilesOf(numbers, member) * (numbers[juvenileShare * members + member] ?? 0) * look.juveniles,
  );
  const seen = countLikelihood(counted, { logSd: look.logSd, finds: 0.5 });
  takeIn(numbers, y, seen, toldByYoung);
  return judge(entryId, 'juveniles', counted, y, seen).surprise;
}

function seenBerried({ numbers }: Draft, { entryId, method }: CountSeen, counted: number): Surprise | null {
  const look = looks[method];
  const y = expected((member) => berriedOf(numbers, member) * look.berried);
  const seen = countLikelihood(counted, { logSd: look.logSd, finds: look.berried });
  takeIn(numbers, y, seen, toldByYoung, (member, animals) => setBerried(numbers, member, animals / look.berried));
  return judge(entryId, 'berried', counted, y, seen).surprise;
}

/** `logNumber` of what each member expects to be seen. */
export const expected = (animals: (member: number) => number): Float64Array =>
  Float64Array.from({ length: members }, (_, member) => logNumber(animals(member)));

/**
 * Takes in what was seen: each member's quantity moves by its rank, all else follows.
 *
 * @param unknown share of the prior that is left to what the model knows nothing of, see `rankUpdate`
 * @param set gives a member its new number of the animals that were seen; traits have followed by then
 */
export function takeIn(
  numbers: Float32Array,
  y: Float64Array,
  seen: Likelihood,
  follows: (trait: Trait) => boolean,
  set: (member: number, animals: number) => void = () => {},
  unknown: number = unknownShare,
): void {
  const after = rankUpdate(y, seen, unknown);
  follow(numbers, y, after, follows);
  for (let member = 0; member < members; member++) set(member, animalsAt(after[member] ?? 0));
}
