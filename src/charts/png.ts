import { createRequire } from 'node:module';
import { Resvg } from '@resvg/resvg-js';
import { text } from './looks.ts';

const font = createRequire(import.meta.url).resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf');

/** An SVG picture as PNG, its words in the one font that is brought along, so that every machine draws the same. */
export function pngOf(svg: string): Buffer {
  const fonts = { fontFiles: [font], loadSystemFonts: false, defaultFontFamily: text.font };
  return new Resvg(svg, { font: fonts }).render().asPng();
}
