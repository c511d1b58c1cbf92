import type { Random } from './random.ts';

/** Somebody who buys: a bird or a plant, in an invented place. */
export interface DemoBuyer {
  readonly buyer: string;
  readonly area: string;
  /** Region of another country; undefined: at home. */
  readonly region?: string;
}

const names = [
  ...['siskin', 'dunnock', 'snipe', 'waxwing', 'redstart', 'nuthatch', 'bunting', 'lapwing', 'plover', 'goldcrest'],
  ...['teasel', 'yarrow', 'campion', 'sorrel', 'bracken', 'clover', 'mallow', 'vetch', 'tansy', 'burdock'],
  ...['whinchat', 'hoopoe', 'dipper', 'serin', 'twite', 'wryneck', 'brambling', 'garganey', 'crake', 'pipit'],
  ...['gentian', 'sedge', 'spurge', 'knapweed', 'bilberry', 'juniper', 'hornbeam', 'spindle', 'privet', 'medlar'],
] as const;

const villages = [
  'Tihodol',
  'Zelenbrod',
  'Jelkodol',
  'Kapljevec',
  'Meglenjak',
  'Rosodol',
  'Srnobrod',
  'Vetrogaj',
] as const;

/** Every ninth buyer lives over the border. */
const abroad = { every: 9, area: 'Rauschenau', region: 'AT' } as const;

/** The buyer of a name always lives in the same place. */
export function pickBuyer(random: Random): DemoBuyer {
  const index = random.whole(0, names.length - 1);
  const buyer = names[index] ?? names[0];
  if (index % abroad.every === abroad.every - 1) return { buyer, area: abroad.area, region: abroad.region };
  return { buyer, area: villages[index % villages.length] ?? villages[0] };
}
