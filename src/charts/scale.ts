/** An axis of values: where it begins and ends, and how far apart its lines are. */
export interface Scale {
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** Decimals that tell its lines apart. */
  readonly decimals: number;
}

const MOST_STEPS = 5;
/** No kit and no meter tells finer differences. */
const LEAST_SPAN = 0.1;
const CLEARANCE = 0.05;

/** A scale of round figures, in at most five steps, that holds all values; whole values get whole steps. */
export function scaleFor(values: readonly number[], fromZero: boolean): Scale {
  const least = values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const high = values.reduce((a, b) => Math.max(a, b), least);
  // A line that does not begin at 0 must not lie on the axis, as if it did.
  const low = fromZero ? Math.min(0, least) : least - (high - least) * CLEARANCE;
  const isWhole = values.every(Number.isInteger);
  const span = Math.max(high - low, isWhole ? 1 : LEAST_SPAN);
  const decade = 10 ** Math.floor(Math.log10(span / MOST_STEPS));
  const wanted = [1, 2, 5, 10, 20].map((times) => times * decade).filter((step) => !isWhole || step >= 1);
  const fitting = wanted.map((step) => around(low, Math.max(high, low + span), step));
  return (
    fitting.find(({ min, max, step }) => Math.round((max - min) / step) <= MOST_STEPS) ?? around(low, low + span, span)
  );
}

function around(low: number, high: number, step: number): Scale {
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const rounded = (value: number): number => Number(value.toFixed(decimals + 1));
  return {
    min: rounded(Math.floor(low / step + 1e-9) * step),
    max: rounded(Math.ceil(high / step - 1e-9) * step),
    step: rounded(step),
    decimals,
  };
}
