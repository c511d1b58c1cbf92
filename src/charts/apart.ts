/** Heights as near as may be to the wanted ones, none nearer to another than `gap` where there is room; pixels from the top. */
export function apart(wanted: readonly number[], gap: number, top: number, bottom: number): number[] {
  const tight = wanted.length < 2 ? gap : Math.min(gap, (bottom - top) / (wanted.length - 1));
  const order = wanted.map((y, index) => ({ y, index })).sort((a, b) => a.y - b.y || a.index - b.index);
  let above = top - tight;
  const pushedDown = order.map(({ y, index }) => {
    above = Math.max(y, above + tight);
    return { y: above, index };
  });
  const heights = new Array<number>(wanted.length);
  let below = bottom + tight;
  for (const { y, index } of pushedDown.reverse()) {
    below = Math.min(y, below - tight);
    heights[index] = below;
  }
  return heights;
}
