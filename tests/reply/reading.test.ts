import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  day,
  defaultBusiness,
  type Instant,
  isAlarm,
  judgeReading,
  noWaterValues,
  plusMs,
  type Reading,
  type ReadingLogged,
  readInterval,
  standingValues,
  type Tub,
  type WaterValues,
} from '../../src/domain/index.ts';
import { figureOf } from '../../src/reply/findings.ts';
import { readingCard, readingHistoryCard, tubCard, tubListCard, voiceFor } from '../../src/reply/index.ts';
import { plannedAt } from '../support/water.ts';
import { expectPhone } from './phone.ts';

fc.configureGlobal({ seed: 20270413 });

const now = '2027-04-13T17:00:00.000Z' as Instant;
const tub: Tub = {
  id: 3,
  name: 'A3',
  lineId: 1,
  lineName: 'tangerine',
  litres: 25,
  netLitres: 20,
  rack: 'A',
  role: 'breeding',
  addedAt: now,
  retired: null,
};

function cardOf(
  values: Partial<WaterValues>,
  more: { due?: string; units?: 'metric' | 'us'; told?: Partial<ReadingLogged> } = {},
) {
  const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam', units: more.units ?? 'metric' }, now);
  const reading = { ...noWaterValues, ...values, at: now };
  const verdict = judgeReading(reading, { ph: null, tempC: null, usualTdsMgL: 240 }, defaultBusiness);
  const standing = standingValues(
    verdict.findings.map((finding) => ({ finding, at: now, daysOld: 0, isChanged: false })),
  );
  const harm = standing.some(isAlarm) ? { harmOn: day('2027-04-13') } : {};
  const plan = plannedAt(reading.nitrateMgL, more.due ?? '2027-04-18', harm);
  const { nitrateMgL } = reading;
  const kit = nitrateMgL === null ? null : readInterval(nitrateMgL, defaultBusiness.kitStepsMgL);
  return readingCard(voice, 'wren', {
    tub,
    reading,
    verdict,
    plan,
    kit,
    odd: null,
    trends: [],
    standing,
    sameLook: null,
    entryId: 7,
    ...more.told,
  });
}

describe('the card of a reading', () => {
  it('says fine, with pH spelt as pH, when all is well', () => {
    expect(cardOf({ ph: 7.4, tempC: 21.44 })).toMatchObject({
      title: 'A3: fine, nothing to do',
      why: ['Fine: 21.4 °C · pH 7.4', 'logged by wren 19:00'],
    });
    expect(cardOf({ ph: 7.4 }, { due: '2027-04-13' }).title).toBe('A3: fine, routine change 2 L today');
  });

  it('calls fine only what is', () => {
    const { why } = cardOf({ nitrateMgL: 40, nitriteMgL: 1, ph: 7 });
    expect(why?.filter((line) => line.startsWith('Fine'))).toEqual(['Fine: pH 7']);
    expect(why?.[0]).toBe('Nitrite 1 mg/L, should be 0');
  });

  it('says act, watch or fine in its first line and fits a phone, whatever was read', () => {
    const value = (min: number, max: number) => fc.option(fc.double({ min, max, noNaN: true }), { nil: null });
    const values = fc.record({
      tempC: value(0, 40),
      ph: value(4, 10.5),
      ghDgh: value(0, 50),
      khDkh: value(0, 40),
      tdsMgL: value(0, 3000),
      ammoniaMgL: value(0, 20),
      nitriteMgL: value(0, 20),
      nitrateMgL: value(0, 500),
    });
    fc.assert(
      fc.property(values, fc.constantFrom('2027-04-13', '2027-04-10', '2027-04-18'), (given, due) => {
        const card = cardOf(given, { due });
        expectPhone(card);
        expect(card.title).toMatch(/^A3: (act|watch|fine)\b/);
      }),
      { numRuns: 300 },
    );
  });
});

describe('the card of a tub', () => {
  const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, now);
  const stateOf = (values: Partial<WaterValues> | null, lateDays = 0) => {
    const reading: Reading = {
      ...noWaterValues,
      ...values,
      id: 1,
      entryId: 1,
      at: now,
      by: 'wren',
      loggedAt: now,
      tubId: 3,
      note: null,
    };
    const verdict = judgeReading(reading, { ph: null, tempC: null, usualTdsMgL: null }, defaultBusiness);
    return {
      tub,
      last: values === null ? null : { reading, verdict, daysOld: 0 },
      lastChangedAt: null,
      plan: plannedAt(values?.nitrateMgL ?? null, '2027-04-18', {
        readOn: values?.nitrateMgL == null ? null : day('2027-04-13'),
      }),
      standing:
        values === null
          ? []
          : standingValues(verdict.findings.map((finding) => ({ finding, at: now, daysOld: 0, isChanged: false }))),
      isOdd: false,
      waterState: values === null ? ('fine' as const) : verdict.state,
      stock: { tub, counted: null, saleable: null, range: null, members: null, offSale: null },
      lateDays,
      past: { tub, readings: [], changes: [], nitrateLimitMgL: 20 },
      odd: null,
      trends: [],
      creep: null,
    };
  };

  it('does not call a value fine that is not', () => {
    const card = tubCard(voice, stateOf({ nitrateMgL: 40, tempC: 21 }));
    expectPhone(card);
    expect(card.title).toBe('A3: watch, nitrate ≈40 mg/L');
    expect(card.why?.[1]).toBe('Read today: nitrate 40 mg/L · 21 °C');
    expect(card.why).toContain('Animals: not counted yet');
  });

  it('headlines nitrate as it stands after a change, and offers no second change that day', () => {
    const read = stateOf({ nitrateMgL: 40 });
    const readOn = day('2027-04-18');
    const changed = (nitrateMgL: number) => ({
      ...read,
      lastChangedAt: plusMs(now, 60_000),
      plan: plannedAt(nitrateMgL, '2027-04-18', { readOn }),
      waterState: nitrateMgL > 20 ? ('watch' as const) : ('fine' as const),
    });
    const card = tubCard(voice, changed(31.2));
    expectPhone(card);
    expect(card.title).toBe('A3: watch, nitrate ≈31 mg/L');
    expect(card.controls?.[0]?.map((control) => control.kind === 'button' && control.label)).toEqual([
      'Log a reading',
      'Count',
    ]);
    expect(tubCard(voice, changed(19)).title).toBe('A3: fine, nothing to do');
    expect(tubListCard(voice, [changed(31.2)]).table?.[1]).toBe('A3     –  31 watch, nitrate ≈31 mg/L');
  });

  it('offers the change first where it is due', () => {
    const due = { ...stateOf({ ph: 7 }), plan: plannedAt(null, '2027-04-13') };
    expect(tubCard(voice, due).controls?.[0]?.[0]).toMatchObject({ label: 'Changed 2 L', tone: 'main' });
  });

  it('in a list says what nobody has read yet and not that all is fine', () => {
    expect(tubListCard(voice, [stateOf(null), stateOf(null)]).title).toBe('2 tubs: 2 not read yet');
    expect(tubListCard(voice, [stateOf({ ph: 7 })]).table?.[1]).toBe('A3     –   – nitrate not read yet');
    expect(tubListCard(voice, [stateOf({ nitrateMgL: 10 })]).title).toBe('1 tub: all fine');
    const mixed = tubListCard(voice, [stateOf({ nitriteMgL: 1 }), stateOf({ nitrateMgL: 40 }, 3), stateOf(null)]);
    expect(mixed.title).toBe('3 tubs: 1 act, 1 watch, 1 late');
    expectPhone(mixed);
  });
});

it('every value has its unit', () => {
  const voice = voiceFor(defaultBusiness, now);
  const { findings } = judgeReading(
    { tempC: 21, ph: 7, ghDgh: 8, khDkh: 4, tdsMgL: 240, ammoniaMgL: 0.25, nitriteMgL: 0, nitrateMgL: 5 },
    { ph: null, tempC: null, usualTdsMgL: null },
    defaultBusiness,
  );
  expect(findings.map((finding) => figureOf(voice, finding)).sort()).toEqual([
    '21 °C',
    'GH 8 °dGH',
    'KH 4 °dKH',
    'TDS 240 mg/L',
    'ammonia 0.25 mg/L',
    'nitrate 5 mg/L',
    'nitrite 0 mg/L',
    'pH 7',
  ]);
});

it('a history of one value has that column alone', () => {
  const voice = voiceFor({ ...defaultBusiness, units: 'us' }, now);
  const reading: Reading = {
    ...noWaterValues,
    tempC: 22,
    id: 1,
    entryId: 1,
    at: now,
    by: 'wren',
    loggedAt: now,
    tubId: 3,
    note: null,
  };
  expect(
    readingHistoryCard(voice, { tub, readings: [reading], changes: [], nitrateLimitMgL: 20 }, 90, 'tempC').table,
  ).toEqual(['         °F', '13 Apr 71.6']);
});
