/** What a bag is reckoned by where sources differ or none was found. */
export interface PackingFigures {
  /** The a of W = a·L³, mg/mm³. */
  readonly massMgMm3: number;
  /** Whether rates are raised for animals smaller than those that were measured. */
  readonly smallUseMore: boolean;
  /** Un-ionised ammonia that the water may reach, mg N/L. */
  readonly nh3MostMgNL: number;
  /** Dissolved oxygen that the water may fall to, mg/L. */
  readonly oxygenLeastMgL: number;
  /** Speed at which oxygen passes the surface of still water, m/h. */
  readonly surfaceMH: number;
  /** Oxygen that passes the film of a breathable bag at 25 °C, mL a day by m² and atm. */
  readonly filmMlM2DayAtm: number;
}

/** mL/(m²·day·atm) of a film of 25 µm (1 mil) from mL·mil/(100 in²·day·atm), the unit of the table. */
const perSquareMetre = (mlMil100In2: number): number => mlMil100In2 / 0.064516;

/**
 * The strictest figures; a plan goes by these.
 *
 * Mass: the mean female, 43.95 mg, at the least adult length, 15 mm (weights: secondary copy of an unnamed paper; adult lengths of 15 to
 * 20 mm: Serezli et al. 2017). NH3-N: 0.05 mg/L, a tenth of the 96-h LC50 of *M. carcinus* larvae as their authors reckon it, and where
 * harm to fish begins by University of Florida IFAS, FA16. Oxygen: 4 mg/L, common practice, no source. Surface: a still film of 1.5 mm,
 * 0.5 cm/h, assumed, for a bag that nobody moves; see `oxygenTransferLHDm2`. Film: the least of plain low-density polyethylene, 300; no
 * maker's figure of a breathable film was used, and those are sold for letting through more.
 */
export const strictFigures: PackingFigures = {
  massMgMm3: 43.95 / 15 ** 3,
  smallUseMore: true,
  nh3MostMgNL: 0.05,
  oxygenLeastMgL: 4,
  surfaceMH: 0.005,
  filmMlM2DayAtm: perSquareMetre(300),
};

/**
 * The mildest published figures, to show how far sources differ.
 *
 * Mass: the mean of both sexes, 37.2 mg, at the middle adult length, 17.5 mm. Rates as measured on larger animals. NH3-N: a tenth of the
 * lowest 72-h LC50 of *M. rosenbergii* postlarvae, 1.45 mg/L (Straus, Robinette & Heinen 1991, doi 10.1111/j.1749-7345.1991.tb00725.x).
 * Oxygen: 3 mg/L, kept in ponds of penaeid shrimp (trade review, abstract). Surface: 0.6 m a day, the least for open water (Chin 2006,
 * Water-Quality Engineering). Film: the most of plain low-density polyethylene, 600 (Food Package Engineering, table 11.2).
 */
export const mildFigures: PackingFigures = {
  massMgMm3: (30.48 + 43.95) / 2 / 17.5 ** 3,
  smallUseMore: false,
  nh3MostMgNL: 0.145,
  oxygenLeastMgL: 3,
  surfaceMH: 0.025,
  filmMlM2DayAtm: perSquareMetre(600),
};
