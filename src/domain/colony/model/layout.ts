/** Members of the ensemble: possible truths of a tub, side by side. */
export const memberCount = 128;

/** Boxes that a young animal passes through from hatching to saleable length; in the first of them it is a shrimplet. */
export const shrimpletBoxes = 4;
export const youngBoxes = 12;
/** Boxes of progress of a carried brood. */
export const broodBoxes = 3;

/**
 * Rows of a state, one number a member each. First the animals: young by box, females that carry a brood by its progress (they are among the
 * females), females and males of saleable length. Then what the tub is like: factors on rates (1: as expected) and leanings (0: as expected).
 */
export const young = 0;
export const broods = young + youngBoxes;
export const females = broods + broodBoxes;
export const males = females + 1;
/** Rows of animals. */
export const animalRows = males + 1;

/** Speed of growth, against the books. */
export const growth = animalRows;
/** Young a brood, against the books. */
export const fertility = growth + 1;
/** Hazard of saleable animals, against the books. */
export const mortality = growth + 2;
/** How much an animal crowds the others, against the books. */
export const crowd = growth + 3;
/** Share of the saleable animals that shows at the dish. */
export const dishShare = growth + 4;
/** Share of the saleable animals that is seen at a glance. */
export const glanceShare = growth + 5;
/** Share of the juveniles that a full count finds. */
export const juvenileShare = growth + 6;
/** By how many of the day's standard deviations the tub is warmer than thought. */
export const warmth = growth + 7;
/** By how many standard deviations of the books more females grow up. */
export const femaleLean = growth + 8;
/** Change of the saleable animals that nothing else explains, share a day. */
export const trend = growth + 9;
export const rowCount = growth + 10;

/** Numbers of a state. */
export const stateLength = rowCount * memberCount;
