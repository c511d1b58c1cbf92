import type { ChartData } from '../domain/index.ts';

export { chartAlt } from './words.ts';

/** A chart as a PNG picture, 720 × 405. The libraries are loaded with the first one, so that a start needs none of them. */
export async function chartPng(chart: ChartData): Promise<Buffer> {
  const [{ chartSvg }, { pngOf }] = await Promise.all([import('./svg.ts'), import('./png.ts')]);
  return pngOf(chartSvg(chart));
}
