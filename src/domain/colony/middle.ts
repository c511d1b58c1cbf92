/** Median; 0 of none. */
export function middleOf(values: readonly number[]): number {
  if (values.length <= 1) return values[0] ?? 0;
  const sorted = values.toSorted((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)] ?? 0;
  const lower = sorted[Math.ceil(sorted.length / 2) - 1] ?? 0;
  return (lower + upper) / 2;
}
