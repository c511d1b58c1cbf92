import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseSheet, type SheetLine } from '../../src/words/index.ts';

fc.configureGlobal({ seed: 20270303 });

const tubs = ['A1', 'A2', 'A10', 'B1', 'Top 1'];
const one = (line: string): SheetLine | undefined => parseSheet(line, tubs)[0];

describe('a sheet of readings', () => {
  it('reads every value, whatever its order, case and sign', () => {
    const all = {
      ...{ nitrateMgL: 20, tempC: 21.5, ph: 7.4, ammoniaMgL: 0.25, nitriteMgL: 0, ghDgh: 8, khDkh: 4, tdsMgL: 240 },
    };
    expect(one('A1 no3 20 t 21.5 ph 7,4 nh4 0.25 no2 0 gh 8 kh 4 tds 240')).toMatchObject({ tub: 'A1', values: all });
    expect(one('a 1: TDS=240, KH:4; GH 8 nitrite 0 TAN .25')?.problem).toEqual({ kind: 'no-number', typed: 'TAN' });
    expect(one('a1 TDS=240,KH:4;GH 8 Nitrite 0 ammonia 0,25 pH7,4, temp21.5 Nitrate : 20')?.values).toEqual(all);
    expect(one('A1 tds 240ppm kh 4 dkh gh 8°dgh nitrite 0 mg/l nh3 0.25 ph 7.4 t 21.5°C no3 20mg/l')?.values).toEqual(
      all,
    );
  });

  it('turns a temperature marked F into °C, and leaves one that is not to be judged', () => {
    expect(one('A1 t 72F')?.values).toEqual({ tempC: 22.2 });
    expect(one('A1 t 72')?.values).toEqual({ tempC: 72 });
    expect(parseSheet('A1 t 72 ', tubs, 'us')[0]?.values).toEqual({ tempC: 72 });
    expect(parseSheet('A1 t 72F', tubs, 'us')[0]?.values).toEqual({ tempC: 72 });
    expect(parseSheet('A1 t 22 C', tubs, 'us')[0]?.values).toEqual({ tempC: 71.6 });
    expect(one('A1 gh -1')?.values).toEqual({ ghDgh: -1 });
  });

  it('leaves out empty lines and tubs with nothing typed', () => {
    expect(parseSheet('A1\n\n  \nA2:\r\nTop 1\nB1 ph 7', tubs).map((line) => line.tub)).toEqual(['B1']);
  });

  it('tells A1 from A10, and finds names of two words', () => {
    expect(parseSheet('A10 ph 7\nA1 ph 7\ntop 1 ph 7\na 10 gh 8', tubs).map((line) => line.tub)).toEqual([
      'A10',
      'A1',
      'Top 1',
      'A10',
    ]);
  });

  it('keeps what was understood beside a problem, and other lines whole', () => {
    expect(parseSheet('A1 no3 20 foo 3 t 21\nA2 no3 t 21\nC7 no3 5\nB1 no3 10', tubs)).toEqual([
      {
        text: 'A1 no3 20 foo 3 t 21',
        tub: 'A1',
        values: { nitrateMgL: 20, tempC: 21 },
        problem: { kind: 'unknown-word', typed: 'foo', near: [] },
      },
      { text: 'A2 no3 t 21', tub: 'A2', values: { tempC: 21 }, problem: { kind: 'no-number', typed: 'no3' } },
      { text: 'C7 no3 5', problem: { kind: 'unknown-tub', typed: 'C7', near: [] } },
      { text: 'B1 no3 10', tub: 'B1', values: { nitrateMgL: 10 } },
    ]);
  });

  it.each([
    ['A1 nitrte 20', { kind: 'unknown-word', typed: 'nitrte', near: ['nitrate', 'nitrite'] }],
    ['A1 no320', { kind: 'unknown-word', typed: 'no320', near: [] }],
    ['A1 20', { kind: 'unknown-word', typed: '20', near: [] }],
    ['A1 no3 >80', { kind: 'not-exact', typed: 'no3 >80' }],
    ['A1 nh4<0.25', { kind: 'not-exact', typed: 'nh4<0.25' }],
    ['A1 tds 1,000', { kind: 'unclear-number', typed: '1,000' }],
    ['A1 no3 20 nitrte', { kind: 'unknown-word', typed: 'nitrte', near: ['nitrate', 'nitrite'] }],
    ['A1 no3 0 A2 no3 5', { kind: 'unknown-word', typed: 'A2', near: [] }],
    ['A1 t 21.5.3', { kind: 'no-number', typed: 't' }],
    ['A1 ph 7 ph 8', { kind: 'twice', typed: 'ph 8' }],
    ['A11 ph 7', { kind: 'unknown-tub', typed: 'A11', near: expect.arrayContaining(['A1']) }],
  ])('%s', (line, problem) => {
    expect(one(line)?.problem).toEqual(problem);
  });

  it('takes the words behind the values as a note, and list marks as none', () => {
    expect(one('A1 ph 6.8 lovely shrimp today')).toMatchObject({ values: { ph: 6.8 }, note: 'lovely shrimp today' });
    expect(one('A1 no3 20 t 21.5 by alder')).toMatchObject({
      values: { nitrateMgL: 20, tempC: 21.5 },
      note: 'by alder',
    });
    expect(one('A1 nh4 0.5 no2 0.1 note fed 2 times')).toMatchObject({ note: 'fed 2 times' });
    expect(parseSheet('1. A1 no3 20\n- A2 no3 10\n---\n• B1 ph 7\n2) A10 gh 8', tubs).map((line) => line.tub)).toEqual([
      'A1',
      'A2',
      'B1',
      'A10',
    ]);
    expect(parseSheet('1. ph 7', ['1'])[0]?.problem).toBeDefined();
  });

  it('reads figures set low, words in full, and values that are about, between or beyond', () => {
    expect(one('A1 NO₃ 20 T° 21.5 ammonium 0.5 temperature 22')?.problem).toMatchObject({ kind: 'twice' });
    expect(one('A1 NO₃ 20 T° 21.5 ammonium 0.5')?.values).toEqual({ nitrateMgL: 20, tempC: 21.5, ammoniaMgL: 0.5 });
    expect(one('A1 no3 ~20')?.values).toEqual({ nitrateMgL: 20 });
    expect(one('A1 no3 20-40 ph 7')?.values).toEqual({ nitrateMgL: 30, ph: 7 });
    expect(one('A1 no3 160+')?.values).toEqual({ nitrateMgL: 160 });
  });

  it('takes a value typed again after a line that is refused', () => {
    const [, second] = parseSheet('A1 t 215\nA1 t 21,5', tubs);
    expect(second).toMatchObject({ values: { tempC: 21.5 } });
    expect(second?.problem).toBeUndefined();
    expect(parseSheet('A1 foo ph 7\nA1 ph 7.2', tubs)[1]?.problem).toBeUndefined();
    expect(parseSheet('A1 t 72\nA1 t 71', tubs, 'us')[1]?.problem).toMatchObject({ kind: 'twice' });
  });

  it('keeps the first of a value typed on two lines of one tub', () => {
    const [first, second] = parseSheet('A1 ph 7 gh 8\na1 ph 8 kh 4', tubs);
    expect(first?.values).toEqual({ ph: 7, ghDgh: 8 });
    expect(second).toMatchObject({ values: { khDkh: 4 }, problem: { kind: 'twice', typed: 'ph 8' } });
  });

  it('gives written values back', () => {
    const values = fc.record({
      no3: fc.integer({ min: 0, max: 160 }),
      t: fc.integer({ min: 100, max: 300 }).map((tenths) => tenths / 10),
      ph: fc.integer({ min: 55, max: 90 }).map((tenths) => tenths / 10),
    });
    fc.assert(
      fc.property(
        values,
        fc.constantFrom(...tubs),
        fc.constantFrom(' ', '=', ': '),
        fc.boolean(),
        (v, tub, sign, comma) => {
          const written = (n: number): string => (comma ? String(n).replace('.', ',') : String(n));
          const line = `${tub} ${Object.entries(v)
            .map(([key, number]) => `${key}${sign}${written(number)}`)
            .join(' ')}`;
          expect(one(line)).toEqual({ text: line, tub, values: { nitrateMgL: v.no3, tempC: v.t, ph: v.ph } });
        },
      ),
    );
  });
});
