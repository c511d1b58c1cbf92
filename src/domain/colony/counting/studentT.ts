/**
 * The chance that Student's t of `freedom` degrees lies within ±`t`: the finite series in θ = atan(t/√ν).
 * Source: Abramowitz & Stegun 1964, Handbook of Mathematical Functions, 26.7.3–4 (from memory, checked against tabled values).
 */
function chanceWithin(t: number, freedom: number): number {
  const angle = Math.atan(t / Math.sqrt(freedom));
  const cos2 = Math.cos(angle) ** 2;
  const isOdd = freedom % 2 === 1;
  let term = isOdd ? Math.cos(angle) : 1;
  let series = freedom === 1 ? 0 : term;
  for (let nth = isOdd ? 3 : 2; nth <= freedom - 2; nth += 2) {
    term *= cos2 * ((nth - 1) / nth);
    series += term;
  }
  const sine = Math.sin(angle) * series;
  return isOdd ? (2 / Math.PI) * (angle + sine) : sine;
}

/**
 * The t that Student's t lies within with chance `level`, two-sided.
 * @param level   over 0 and under 1
 * @param freedom degrees of freedom, whole, from 1
 */
export function studentT(level: number, freedom: number): number {
  if (!(level > 0 && level < 1) || !Number.isInteger(freedom) || freedom < 1) {
    throw new RangeError(`no t of level ${level} with ${freedom} degrees of freedom`);
  }
  let low = 0;
  let high = 1;
  while (chanceWithin(high, freedom) < level) high *= 2;
  for (let halving = 0; halving < 60; halving += 1) {
    const middle = (low + high) / 2;
    if (chanceWithin(middle, freedom) < level) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
