/** Size of the picture, pixels: twice the width of a phone, so that 22 px read as 11. */
export const size = { width: 720, height: 405 } as const;

export const text = { font: 'DejaVu Sans', body: 22, title: 26 } as const;

export const colours = {
  paper: '#ffffff',
  ink: '#1f2328',
  faint: '#5a6068',
  grid: '#dfe2e6',
  limit: '#a3190f',
} as const;

/** How a series is told from the others: by mark and dash before colour. */
export interface Look {
  readonly colour: string;
  readonly dash: readonly number[];
  readonly mark: Mark;
  readonly isHollow: boolean;
}

export type Mark = 'circle' | 'rect' | 'triangle' | 'diamond';

const looks: readonly Look[] = [
  { colour: '#0b5394', dash: [], mark: 'circle', isHollow: false },
  { colour: '#b45309', dash: [12, 6], mark: 'rect', isHollow: false },
  { colour: '#0f6b4f', dash: [4, 5], mark: 'triangle', isHollow: false },
  { colour: '#7a1f6e', dash: [16, 5, 4, 5], mark: 'diamond', isHollow: false },
  { colour: '#4a4f57', dash: [], mark: 'rect', isHollow: true },
  { colour: '#006a86', dash: [12, 6], mark: 'circle', isHollow: true },
  { colour: '#8a2c2c', dash: [4, 5], mark: 'diamond', isHollow: true },
  { colour: '#5b5b00', dash: [16, 5, 4, 5], mark: 'triangle', isHollow: true },
];

/** The look of the series in this place; eight differ. */
export function lookOf(place: number): Look {
  const look = looks[place % looks.length];
  if (look === undefined) throw new Error(`no look in place ${place}`);
  return look;
}
