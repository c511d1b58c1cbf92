/**
 * What a couple can say better than the papers: their own animals in their own water. Each is a figure that the literature gave only
 * second hand, from memory or not at all, so their own log comes before it.
 */
export interface DevelopmentSettings {
  /** Days eggs are carried at a steady 24 °C, 10 to 60. */
  readonly eggDaysAt24C: number;
  /** Days from hatching to 15 mm at a steady 24 °C, 30 to 300. */
  readonly daysTo15MmAt24C: number;
  /** Young hatched by a female of 20 mm, 5 to 100. */
  readonly youngAt20Mm: number;
  /** Days from a hatch to the next eggs at a steady 24 °C, 3 to 90. */
  readonly restDaysAt24C: number;
  /** Share of the hatched that live to 15 mm at 24 °C in an uncrowded tub without fish, over 0 to under 1. */
  readonly youngSurvival: number;
}

/**
 * Eggs: 21 days, a secondary page that gives Tropea et al. 2015 (PLoS ONE 10: e0119468; only its abstract could be read), and from memory.
 * Growth: 10 to 13 weeks to 15 to 20 mm at 23 to 24 °C, common practice, no source; adult after 75 days at 25 to 28 °C in Nur & Christianus
 * 2013 and Mahmoud et al. 2020 (abstracts read).
 * Young: 21 to 51 a hatch (Nur & Christianus 2013, abstract read), laid over 16 to 22 mm, see `broodSize`.
 * Rest: 1 to 2 weeks in warmth, common practice, no source. Survival: 40 to 80 % without fish, common practice, no source.
 */
export const developmentDefaults: DevelopmentSettings = {
  eggDaysAt24C: 21,
  daysTo15MmAt24C: 75,
  youngAt20Mm: 40,
  restDaysAt24C: 12,
  youngSurvival: 0.6,
};
