/** How an order came out, in animals. */
export interface ArrivalOutcome {
  readonly alive: number;
  /** Animals short of what was ordered. */
  readonly owed: number;
  /** At least as many alive as were ordered, whatever the extras. */
  readonly promiseKept: boolean;
}

/** What is owed after `dead` of `sent` animals arrived dead on an order of `ordered`; throws on more dead than sent. */
export function arrivalOutcome(arrival: {
  readonly sent: number;
  readonly dead: number;
  readonly ordered: number;
}): ArrivalOutcome {
  const { sent, dead, ordered } = arrival;
  if (dead < 0 || dead > sent) throw new RangeError(`${dead} dead of ${sent} sent`);
  const alive = sent - dead;
  const owed = Math.max(0, ordered - alive);
  return { alive, owed, promiseKept: owed === 0 };
}
