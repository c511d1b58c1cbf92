import { describe, expect, it } from 'vitest';
import {
  ammoniaMgGH,
  type Bag,
  bodyMassG,
  breathedPh,
  carbonDioxideMolLAtm,
  carbonicPk1,
  cooledC,
  courseOf,
  gasOxygenMgL,
  massLaws,
  mildFigures,
  oxygenHours,
  oxygenSaturationMgL,
  oxygenUseMgGH,
  safeHoursOf,
  standardPressureKPa,
  strictFigures,
  type Travel,
  timeConstantHours,
  timesMeanRate,
} from '../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../published/table.ts';

// Liu et al. 2010; Newton; Smith & Wannamaker 1983 and Coyle et al.; by hand; Weiss 1974. The sources stand in the files.
const liu = publishedTable('respirationLiu2010.csv');
const cooling = publishedTable('parcelCooling.csv');
const transport = publishedTable('prawnTransport.csv');
const budget = publishedTable('sealedBagBudget.csv');
const gas = publishedTable('carbonDioxide.csv');

const rates = { oxygen: oxygenUseMgGH, ammonia: ammoniaMgGH } as const;
type Rated = keyof typeof rates;
const rated = (row: Readonly<Record<string, string>>): Rated => (row['of'] === 'oxygen' ? 'oxygen' : 'ammonia');
const liuRows = (what: string) => liu.rows.filter((row) => row['what'] === what);
const liuValue = (of: Rated, what: string): number => {
  const row = liuRows(what).find((each) => each['of'] === of);
  if (row === undefined) throw new Error(`no ${what} of ${of}`);
  return numberIn(row, 'value');
};

it('is checked against whole tables', () => {
  expect(liu.rows).toHaveLength(24);
  expect(cooling.rows).toHaveLength(2);
  expect(transport.rows).toHaveLength(6);
  expect(budget.rows).toHaveLength(5);
  expect(gas.rows).toHaveLength(7);
});

describe('respiration and excretion', () => {
  it.each(liuRows('rateAtC'))('of $of at $at °C is $value', (row) => {
    expect(rates[rated(row)](numberIn(row, 'at')).toFixed(4)).toBe(row['value']);
  });

  it.each(liuRows('rateAtG'))('of $of at $at g is $value by the law of mass', (row) => {
    const atMean = timesMeanRate(massLaws.oxygen, numberIn(row, 'at')) * liuValue('oxygen', 'mean');
    expect(atMean.toFixed(3)).toBe(row['value']);
  });

  it.each(['oxygen', 'ammonia'] as const)('of %s rise by 10 °C as the published Q10 within 4 in a hundred', (of) => {
    expect(Math.abs(rates[of](25) / rates[of](15) / liuValue(of, 'q10') - 1)).toBeLessThan(0.04);
  });

  // The two laws were fitted apart. Put together they must meet the extremes that were measured: small and warm, large and cold.
  it.each(['oxygen', 'ammonia'] as const)('of %s meet the highest and the lowest that were measured', (of) => {
    const highest = rates[of](30) * timesMeanRate(massLaws[of], 0.12);
    const lowest = rates[of](12) * timesMeanRate(massLaws[of], 1.93);
    expect(Math.abs(highest / liuValue(of, 'highest') - 1)).toBeLessThan(0.03);
    expect(Math.abs(lowest / liuValue(of, 'lowest') - 1)).toBeLessThan(0.25);
  });
});

describe('a parcel in the cold', () => {
  const [box, shell] = cooling.rows;
  if (box === undefined || shell === undefined) throw new Error('rows are missing');

  it('follows the air by its time constant', () => {
    const tau = timeConstantHours(numberIn(box, 'waterKg'), numberIn(box, 'conductanceWK'));
    expect(tau.toFixed(2)).toBe(box['tauHours']);
    expect(cooledC(numberIn(box, 'startC'), numberIn(box, 'airC'), numberIn(box, 'hours'), tau).toFixed(2)).toBe(
      box['endC'],
    );
  });

  it('takes up the heat that its shell lets through', () => {
    // So much water that it hardly warms, as the melting ice of the notebook does not.
    const [waterKg, airC, hours] = [
      numberIn(shell, 'waterKg') * 100,
      numberIn(shell, 'airC'),
      numberIn(shell, 'hours'),
    ];
    const tau = timeConstantHours(waterKg, numberIn(shell, 'conductanceWK'));
    expect(Math.abs(cooledC(0, airC, hours, tau) * waterKg * 4186 - numberIn(shell, 'heatJ'))).toBeLessThan(20);
  });
});

/** Animals of a mass in water alike for hours. */
function travelOf(massG: number, tempC: number): Travel {
  const lengthMm = ((massG * 1000) / strictFigures.massMgMm3) ** (1 / 3);
  expect(bodyMassG(lengthMm, strictFigures.massMgMm3)).toBeCloseTo(massG, 9);
  return { lengthMm, ph: 7, way: { startC: tempC, warmC: tempC, coldC: tempC } };
}

describe('prawns that were sent in oxygen', () => {
  const under = (loadingGL: number, massG: number): Bag => ({
    kind: 'ordinary',
    animals: Math.round((10 * loadingGL) / massG),
    waterL: 10,
    gasL: 10,
    gasOxygenShare: 1,
  });

  it.each(transport.rows)('of $massG g at $loadingGL g/L are promised no longer than the $hours h of $study', (row) => {
    const massG = numberIn(row, 'massG');
    const travel = travelOf(massG, numberIn(row, 'tempC'));
    const safe = safeHoursOf(under(numberIn(row, 'loadingGL'), massG), travel);
    expect(safe.hours).toBeLessThanOrEqual(numberIn(row, 'hours'));
  });

  const measured = transport.rows.filter(({ study }) => study === 'measured');
  it.each(measured)('at $loadingGL g/L have gas enough by its mass, and yet want oxygen', (row) => {
    const bag = under(numberIn(row, 'loadingGL'), numberIn(row, 'massG'));
    const travel = travelOf(numberIn(row, 'massG'), numberIn(row, 'tempC'));
    const hours = numberIn(row, 'hours');
    for (const figures of [strictFigures, mildFigures]) {
      const course = courseOf(travel, figures);
      const usedMg =
        bag.animals * course.massG * (course.steps.find((step) => step.hours === hours)?.oxygenUsedMgG ?? 0);
      expect(usedMg).toBeLessThan(bag.gasL * gasOxygenMgL(1));
    }
    // What was measured at the end is under the 4 mg/L that a plan keeps.
    expect(numberIn(row, 'oxygenMgL')).toBeLessThan(strictFigures.oxygenLeastMgL);
    expect(oxygenHours(bag, courseOf(travel, strictFigures))).toBeLessThan(hours);
  });
});

describe('a budget by hand', () => {
  const value = (what: string): number => {
    const row = budget.rows.find((each) => each['what'] === what);
    if (row === undefined) throw new Error(what);
    return numberIn(row, 'value');
  };
  const massG = 20 * 0.04;

  it('is met by the rates, the water and the air', () => {
    const perHour = massG * oxygenUseMgGH(20);
    expect(perHour).toBeCloseTo(value('oxygenMgH'), 3);
    expect(48 * perHour).toBeCloseTo(value('oxygenMg'), 1);
    expect((0.2 * oxygenSaturationMgL(20, standardPressureKPa)) / perHour).toBeCloseTo(value('waterAloneHours'), 0);
    expect((48 * massG * ammoniaMgGH(20)) / 0.2).toBeCloseTo(value('ammoniaMgNL'), 1);
    // By hand dry at 20 °C; a plan takes moist air at 30 °C, which holds 7 % less.
    expect(gasOxygenMgL(0.2095) / value('airOxygenMgPerL')).toBeCloseTo(0.927, 3);
  });
});

describe('carbon dioxide', () => {
  it.each(gas.rows)('has at $tempC °C a $what of $value', (row) => {
    const found = row['what'] === 'pk1' ? carbonicPk1 : carbonDioxideMolLAtm;
    expect(Math.abs(found(numberIn(row, 'tempC')) / numberIn(row, 'value') - 1)).toBeLessThan(0.004);
  });

  it('lowers the pH by what dissolves, less what ammonia binds', () => {
    const bag = { ph: 7.5, khDkh: 5, tempC: 25, waterL: 0.3, gasL: 0.6, oxygenUsedMg: 0, ammoniaMgNL: 0 };
    expect(breathedPh(bag)).toBeCloseTo(7.5, 9);
    // 12.8 mg of oxygen: 0.4 mmol, 0.28 mmol of carbon dioxide; 0.0341·0.082057·298.15 = 0.833 by volume, so 0.0823 mmol in 0.3 L.
    // Alkalinity 1.783 meq/L; at packing 1.783·10^(6.352−7.5) = 0.1268 mmol/L; with 0.2745 more: 6.352 + log(1.783/0.4013) = 7.000.
    expect(breathedPh({ ...bag, oxygenUsedMg: 12.8 })).toBeCloseTo(7.0, 2);
    expect(breathedPh({ ...bag, oxygenUsedMg: 12.8, ammoniaMgNL: 5 })).toBeGreaterThan(7.05);
    expect(breathedPh({ ...bag, oxygenUsedMg: 12.8, khDkh: 2 })).toBeLessThan(7);
  });
});
