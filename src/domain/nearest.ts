/** Letters of a name as people compare them: no case, no blanks. */
export const folded = (text: string): string => text.toLowerCase().replace(/\s+/g, '');

/** How many single-letter slips (swap of neighbours included) turn `a` into `b`. */
export function slipsBetween(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  const cell = (i: number, j: number): number => rows[i]?.[j] ?? 0;
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    rows.push(row);
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(cell(i - 1, j) + 1, cell(i, j - 1) + 1, cell(i - 1, j - 1) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, cell(i - 2, j - 2) + 1);
      row.push(best);
    }
  }
  return cell(a.length, b.length);
}

/**
 * The names that `typed` may have meant, best first: those that begin with it, then those within a third of their letters (at
 * least one) by slips. At most `most`.
 */
export function nearest(typed: string, names: readonly string[], most = 3): string[] {
  const wanted = folded(typed);
  if (wanted === '') return names.slice(0, most);
  return names
    .map((name) => {
      const letters = folded(name);
      const slips = slipsBetween(wanted, letters);
      return {
        name,
        slips: letters.startsWith(wanted) ? Math.min(slips, 0.5) : slips,
        allowed: Math.max(1, letters.length / 3),
      };
    })
    .filter(({ slips, allowed }) => slips <= allowed)
    .sort((a, b) => a.slips - b.slips || a.name.localeCompare(b.name))
    .slice(0, most)
    .map(({ name }) => name);
}
