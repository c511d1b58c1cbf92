import { expect, it } from 'vitest';
import { chartAlt, chartPng } from '../../src/charts/index.ts';
import { pngOf } from '../../src/charts/png.ts';
import { imageSize } from '../../src/local/messages/imageSize.ts';
import { bandSample, nitrateSample, stockSample } from './sample.ts';

it.each([
  ['lines', stockSample],
  ['steps', nitrateSample],
  ['a range', bandSample],
])('a chart of %s is a picture for a phone, the same bytes each time', async (_, chart) => {
  const png = await chartPng(chart);
  expect(png.subarray(0, 8)).toEqual(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]));
  expect(imageSize(png)).toEqual({ widthPx: 720, heightPx: 405 });
  expect((await chartPng(chart)).equals(png)).toBe(true);
});

it('its words are drawn, with the font that is brought along', () => {
  const picture = (words: string): Buffer =>
    pngOf(
      `<svg xmlns="http://www.w3.org/2000/svg" width="90" height="30"><text x="5" y="20" font-family="DejaVu Sans">${words}</text></svg>`,
    );
  expect(picture('°C → …').equals(picture(''))).toBe(false);
});

it('it is told in words', () => {
  expect(chartAlt(nitrateSample)).toBe(
    'Chart of A3 nitrate, mg/L. nitrate from 10 on 12 Sep to 20 on 10 Oct; limit 20; 2 water changes.',
  );
  expect(chartAlt({ ...bandSample, unit: '' })).toBe('Chart of Jade to come. jade from 100 on 12 Oct to 130 on 9 Nov.');
  const many = Array.from({ length: 40 }, () => stockSample.series).flat();
  expect(chartAlt({ ...stockSample, series: many })).toHaveLength(1024);
});
