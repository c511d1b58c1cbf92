/** Lines of a post about one thing. */
export interface PostBlock {
  readonly lines: readonly string[];
  /** So many are kept, however short the room is; default all of them. */
  readonly least?: number;
  /** Told in one line where the room is short. */
  readonly joins?: boolean;
  /** Said behind the last line that is kept of what was left out. */
  readonly more?: (left: number) => string;
}

/**
 * The lines of several blocks in their order, at most `most` of them. Where there are more, blocks that can be joined become one line each,
 * the last ones first; then blocks are cut to their least, the last ones first.
 */
export function fittedLines(blocks: readonly PostBlock[], most: number): string[] {
  const told = blocks.map(({ lines }) => [...lines]);
  const over = (): number => told.reduce((sum, lines) => sum + lines.length, 0) - most;
  for (const [index, { joins }] of [...blocks.entries()].reverse()) {
    const lines = told[index] ?? [];
    if (over() > 0 && joins === true && lines.length > 1) told[index] = [lines.join(' · ')];
  }
  for (const [index, { least, more }] of [...blocks.entries()].reverse()) {
    const lines = told[index] ?? [];
    const kept = Math.max(least ?? lines.length, lines.length - Math.max(0, over()));
    if (kept >= lines.length) continue;
    const left = lines.length - kept;
    told[index] = lines
      .slice(0, kept)
      .map((line, at) => (more !== undefined && at === kept - 1 ? `${line} · ${more(left)}` : line));
  }
  return told.flat().slice(0, most);
}
