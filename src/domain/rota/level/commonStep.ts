/** Minutes of which all of `minutes` are whole multiples; null where they have no common step of a hundredth of a minute or more. */
export function commonStep(minutes: readonly number[]): number | null {
  const parts = 100;
  let step = 0;
  for (const one of minutes) {
    const whole = Math.round(one * parts);
    if (Math.abs(one * parts - whole) > 1e-6) return null;
    step = greatestCommon(step, whole);
  }
  return step === 0 ? null : step / parts;
}

const greatestCommon = (a: number, b: number): number => (b === 0 ? a : greatestCommon(b, a % b));
