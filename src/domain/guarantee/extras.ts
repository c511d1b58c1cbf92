/** What the arrival record says: animals sent, and those of them that arrived dead. */
export interface ArrivalCounts {
  readonly sent: number;
  readonly dead: number;
}

/**
 * What is believed of arrivals before any are recorded: 3 lost in 100, with the weight of 100 animals. Common practice, no
 * source. With it an order of ten is sent as twelve.
 */
export const arrivalPrior: ArrivalCounts = { sent: 100, dead: 3 };

/** The chance that one animal arrives alive: the record and the prior counted together. */
export const survivalChance = (record: ArrivalCounts): number =>
  1 - (record.dead + arrivalPrior.dead) / (record.sent + arrivalPrior.sent);

/**
 * The chance that at least `needed` of `sent` animals arrive alive when each does with chance `survival` (0 < survival ≤ 1),
 * each by itself: the exact binomial sum, in logarithms so that thousands of animals do not underflow.
 */
export function chanceOfFull(needed: number, sent: number, survival: number): number {
  if (needed > sent) return 0;
  if (survival >= 1) return 1;
  const oddsLost = Math.log1p(-survival) - Math.log(survival);
  let term = sent * Math.log(survival);
  let sum = Math.exp(term);
  for (let dead = 1; dead <= sent - needed; dead++) {
    term += Math.log((sent - dead + 1) / dead) + oddsLost;
    sum += Math.exp(term);
  }
  return Math.min(1, sum);
}

/**
 * How many animals to send beyond an order of `number`: the fewest with which the chance that it arrives full is at least
 * `levelPercent` (0 to below 100). Throws outside that range or on a record with more dead than sent, both being bugs.
 */
export function extrasFor(number: number, record: ArrivalCounts, levelPercent: number): number {
  if (!(levelPercent >= 0 && levelPercent < 100)) throw new RangeError(`no level of full orders: ${levelPercent} %`);
  if (record.dead < 0 || record.dead > record.sent) throw new RangeError(`${record.dead} dead of ${record.sent} sent`);
  if (number <= 0) return 0;
  const survival = survivalChance(record);
  const isEnough = (extras: number): boolean => chanceOfFull(number, number + extras, survival) >= levelPercent / 100;
  // One more animal never lowers the chance, so the fewest are found by halving.
  let tooFew = -1;
  let enough = 0;
  while (!isEnough(enough)) {
    tooFew = enough;
    enough = 2 * enough + 1;
  }
  while (enough - tooFew > 1) {
    const middle = Math.floor((tooFew + enough) / 2);
    if (isEnough(middle)) enough = middle;
    else tooFew = middle;
  }
  return enough;
}

/**
 * The largest number up to `asked` that fits with its extras into what is free, and those extras; none where nothing fits.
 * @param extrasOf extras of a number of animals; never fewer for more animals
 */
export function mostThatFits(
  asked: number,
  free: number,
  extrasOf: (number: number) => number,
): { readonly fits: number; readonly fitsExtras: number } {
  let fits = 0;
  let tooMany = Math.min(asked, Math.max(0, free)) + 1;
  while (tooMany - fits > 1) {
    const middle = Math.floor((fits + tooMany) / 2);
    if (middle + extrasOf(middle) <= free) fits = middle;
    else tooMany = middle;
  }
  return { fits, fitsExtras: fits === 0 ? 0 : extrasOf(fits) };
}
