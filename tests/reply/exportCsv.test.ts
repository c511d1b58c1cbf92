// Comma-separated text by RFC 4180, and that no cell of it can act as a formula, whatever people typed and however a sheet cuts it.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ColumnKind, dayOf, defaultBusiness, type Instant, timeOf } from '../../src/domain/index.ts';
import { csvTexts, decimalWords, harmless, voiceFor } from '../../src/reply/index.ts';

fc.configureGlobal({ seed: 20270413 });

const now = '2027-04-13T17:00:00.000Z' as Instant;
const voiceIn = (currency: string) => voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam', currency }, now);

type Rows = readonly (readonly (string | number | null)[])[];
const csv = (kinds: readonly ColumnKind[], rows: Rows, currency = 'EUR'): string =>
  tableTexts(kinds, rows, currency).join('');

const tableTexts = (kinds: readonly ColumnKind[], rows: Rows, currency: string, most?: number): string[] => {
  const columns = kinds.map((is, index) => ({ name: `${is} ${index}`, is }));
  return csvTexts(voiceIn(currency), { name: 'test', columns, rows }, most);
};

/** Reads comma-separated text as RFC 4180 writes it, with any sign as the separator. */
function parse(text: string, separator = ','): string[][] {
  const rows: string[][] = [];
  let cells: string[] = [];
  let cell = '';
  let isQuoted = false;
  for (let at = 0; at < text.length; at += 1) {
    const sign = text.charAt(at);
    if (isQuoted) {
      if (sign !== '"') cell += sign;
      else if (text.charAt(at + 1) === '"') {
        cell += '"';
        at += 1;
      } else isQuoted = false;
    } else if (sign === '"' && cell === '') isQuoted = true;
    else if (sign === separator) {
      cells.push(cell);
      cell = '';
    } else if (sign === '\n' || sign === '\r') {
      if (sign === '\r' && text.charAt(at + 1) === '\n') at += 1;
      rows.push([...cells, cell]);
      cells = [];
      cell = '';
    } else cell += sign;
  }
  return cell === '' && cells.length === 0 ? rows : [...rows, [...cells, cell]];
}

/** Texts with all that a sheet could stumble over. */
const typed = fc.oneof(
  fc.string(),
  fc.string({ unit: 'binary' }),
  fc.string({
    unit: fc.constantFrom(
      '=',
      '+',
      '-',
      '@',
      '＝',
      '\t',
      '\r',
      '\n',
      ' ',
      '\u00a0',
      '\u200b',
      ',',
      ';',
      '|',
      '"',
      "'",
      'a',
      '1',
      '\u0000',
    ),
  }),
);

describe('comma-separated text', () => {
  it('has a heading, rows that end in CR LF, and quotes where they are needed', () => {
    expect(
      csv(
        ['text', 'number'],
        [
          ['plain', 1],
          ['a, b', null],
          ['say "hi"', 2.5],
          ['two\nlines', 0],
        ],
      ),
    ).toBe('text 0,number 1\r\nplain,1\r\n"a, b",\r\n"say ""hi""",2.5\r\n"two\nlines",0\r\n');
    expect(csv(['text'], [])).toBe('text 0\r\n');
  });

  it('tells money as decimals of the currency, negative amounts as numbers', () => {
    expect(csv(['money', 'money'], [[-1250, 5]])).toContain('\r\n-12.50,0.05\r\n');
    expect(csv(['money'], [[-1250]], 'JPY')).toContain('\r\n-1250\r\n');
    expect(csv(['money'], [[-1250]], 'KWD')).toContain('\r\n-1.250\r\n');
  });

  it('tells moments by the clock of the business', () => {
    expect(csv(['moment', 'day'], [['2027-03-31T22:30:00.000Z', '2027-03-31']])).toContain(
      '\r\n2027-04-01 00:30,2027-03-31\r\n',
    );
  });

  it('tells every moment as the calendar of the zone does, also around the changes of its clocks', () => {
    const moment = fc
      .date({ min: new Date('2000-01-01'), max: new Date('2040-01-01'), noInvalidDate: true })
      .map((date) => date.toISOString() as Instant);
    const change = fc
      .integer({ min: -240, max: 240 })
      .map((minutes) => new Date(Date.parse('2027-04-03T15:00:00Z') + minutes * 60_000).toISOString() as Instant);
    const zones = fc.constantFrom(
      'Europe/Amsterdam',
      'Australia/Lord_Howe',
      'Asia/Kathmandu',
      'America/St_Johns',
      'UTC',
    );
    fc.assert(
      fc.property(fc.array(fc.oneof(moment, change), { maxLength: 5 }), zones, (moments, zone) => {
        const rows = moments.map((at) => [at]);
        const table = { name: 'test', columns: [{ name: 'at', is: 'moment' as const }], rows };
        const [text = ''] = csvTexts(voiceFor({ ...defaultBusiness, zone }, now), table);
        expect(text.split('\r\n').slice(1, -1)).toEqual(moments.map((at) => `${dayOf(at, zone)} ${timeOf(at, zone)}`));
      }),
      { numRuns: 200 },
    );
  });

  it('goes on in further files where one does not hold it, each with the heading', () => {
    const rows = Array.from({ length: 7 }, (_, index) => [`row ${index}`]);
    const texts = tableTexts(['text'], rows, 'EUR', 25);
    expect(texts).toEqual([
      'text 0\r\nrow 0\r\nrow 1\r\n',
      'text 0\r\nrow 2\r\nrow 3\r\n',
      'text 0\r\nrow 4\r\nrow 5\r\n',
      'text 0\r\nrow 6\r\n',
    ]);
    expect(tableTexts(['text'], [], 'EUR', 1)).toEqual(['text 0\r\n']);
    expect(tableTexts(['text'], rows, 'EUR', 1)).toHaveLength(7);
  });

  it('is read back cell by cell, whatever was typed', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(typed, typed), { minLength: 1, maxLength: 4 }), (rows) => {
        expect(parse(csv(['text', 'text'], rows)).slice(1)).toEqual(rows.map((row) => row.map(harmless)));
      }),
      { numRuns: 300 },
    );
  });
});

describe('a text', () => {
  it.each([
    ['=1+1', "'=1+1"],
    ['+31 6', "'+31 6"],
    ['-2 jade', "'-2 jade"],
    ['@home', "'@home"],
    ['\tx', "'\tx"],
    ['\rx', "'\rx"],
    ['\nx', "'\nx"],
    ['  =x', "'  =x"],
    ['\u200b＝x', "'\u200b＝x"],
    ['a;=x', "a;'=x"],
    ['a, -5', "a,' -5"],
    ['\u0000x', "'\u0000x"],
    ['', ''],
    ['jade, 5 snow', 'jade, 5 snow'],
    ['20-30', '20-30'],
    ["O'Neill", "O'Neill"],
  ])('%j is handed out as %j', (text, expected) => {
    expect(harmless(text)).toBe(expected);
  });

  it('is never a formula, also in a sheet that separates by something else', () => {
    const asFormula = /^[\p{White_Space}\p{Cc}\p{Cf}"]*[=+\-@＝＋－＠]/u;
    fc.assert(
      fc.property(fc.array(fc.tuple(typed, typed), { minLength: 1, maxLength: 3 }), (rows) => {
        const text = csv(['text', 'text'], rows);
        for (const separator of [',', ';', '\t', '|']) {
          for (const cell of parse(text, separator).flat()) expect(cell).not.toMatch(asFormula);
        }
        for (const line of text.split(/[\r\n]/)) expect(line).not.toMatch(asFormula);
      }),
      { numRuns: 500 },
    );
  });

  it('that is harmless stays as it is', () => {
    const plain = fc
      .string({ unit: fc.constantFrom('a', 'B', '1', ' ', '.', 'é', '🦐', ',', ';') })
      .map((text) => `x${text}`);
    fc.assert(fc.property(plain, (text) => harmless(text) === text));
  });
});

it('an amount as a decimal is the same amount, digit by digit', () => {
  const minor = fc.maxSafeInteger();
  fc.assert(
    fc.property(minor, fc.constantFrom('EUR', 'JPY', 'KWD'), (amount, currency) => {
      const text = decimalWords(currency, amount);
      expect(BigInt(text.replace('.', ''))).toBe(BigInt(amount));
      expect(text).toMatch(currency === 'JPY' ? /^-?\d+$/ : currency === 'KWD' ? /^-?\d+\.\d{3}$/ : /^-?\d+\.\d{2}$/);
    }),
  );
  expect(['EUR', 'JPY', 'KWD'].map((currency) => decimalWords(currency, -5))).toEqual(['-0.05', '-5', '-0.005']);
});
