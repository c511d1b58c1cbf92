import {
  crowd,
  dishShare,
  femaleLean,
  fertility,
  glanceShare,
  growth,
  juvenileShare,
  mortality,
  trend,
  warmth,
} from './layout.ts';

/** What is believed of something that a tub has to itself, before anything was counted. */
export interface Trait {
  readonly row: number;
  /** factor: log-normal about its median, kept as the factor itself; leaning: normal about 0. */
  readonly kind: 'factor' | 'leaning';
  readonly median: number;
  /** Standard deviation, of the logarithm for a factor. */
  readonly sd: number;
  /** Days after which 1/e of a deviation is left: a tub does not stay as it is. */
  readonly memoryDays: number;
  /** Share of the variance that all tubs of the house have in common, 0 to 1. */
  readonly houseShare: number;
}

/** What a trait of a house has in common over its tubs: the same water, food and eyes. */
const houseShare = 0.5;
/** A room is as warm for all its tubs, but for their place in it. */
const roomShare = 0.9;

const factor = (row: number, median: number, sd: number, memoryDays: number): Trait => ({
  row,
  kind: 'factor',
  median,
  sd,
  memoryDays,
  houseShare,
});
const leaning = (row: number, sd: number, memoryDays: number, share = houseShare): Trait => ({
  row,
  kind: 'leaning',
  median: 0,
  sd,
  memoryDays,
  houseShare: share,
});

/**
 * Traits in the order of their rows. All are assumptions, and each is corrected by the tub's own counts.
 *
 * Growth, fertility, mortality: as wide as the books' own ranges once a tub is known to be a kept colony. Crowding: the published order says
 * nothing of how full a tub gets; 2.5 times the books' density makes a tub left to itself settle at some 3 to 16 saleable animals a litre
 * (common practice, no source). Seen at the dish: 30 to 60 of 100 (common practice, no source). At a glance: from a third to all, as people mean
 * what they see or what they guess there is; so wide that a glance alone never promises more than was seen. What tubs of a house have in common is
 * tuned on simulated businesses; members of the same number share it, so that a sum over tubs taken inside a member is as uncertain as it should be.
 */
export const traits: readonly Trait[] = [
  factor(growth, 0.95, 0.4, 300),
  factor(fertility, 1, 0.6, 150),
  factor(mortality, 1, 0.5, 150),
  factor(crowd, 2.5, 0.6, 500),
  factor(dishShare, 0.42, 0.28, 1000),
  factor(glanceShare, 0.55, 0.47, 1000),
  factor(juvenileShare, 0.6, 0.5, 300),
  leaning(warmth, 1, 120, roomShare),
  leaning(femaleLean, 1, 200),
  leaning(trend, 0.002, 90),
];

/** The scale on which a trait is normal. */
export const normalScale = ({ kind }: Trait, value: number): number => (kind === 'factor' ? Math.log(value) : value);

/** Back from `normalScale`. */
export const naturalScale = ({ kind }: Trait, value: number): number => (kind === 'factor' ? Math.exp(value) : value);
