// Orders in words, against an invented list of lines and goods.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseItems, printItems, type TypedItems } from '../../src/words/index.ts';

fc.configureGlobal({ seed: 20270303 });

const names = {
  lines: ['orange', 'green', 'jade', 'snow', 'blue dream'],
  goods: ['moss', 'blue dream moss', 'leaves', 'box'],
};
const read = (text: string): TypedItems => parseItems(text, names);
const plain = (text: string): string => {
  const { items, unknown } = read(text);
  expect(unknown).toEqual([]);
  return printItems(items);
};

describe('an order in words', () => {
  it.each([
    ['20 orange, 10 green, 2 moss', '20 orange, 10 green, 2 moss'],
    ['2 tens orange, 10 green + 2 moss', '20 orange, 10 green, 2 moss'],
    ['20x jade', '20 jade'],
    ['20 × jade', '20 jade'],
    ['jade x20', '20 jade'],
    ['jade 20', '20 jade'],
    ['jade: 20', '20 jade'],
    ['jade-20', '20 jade'],
    ['jade - 20', '20 jade'],
    ['20jade', '20 jade'],
    ['a ten of jade', '10 jade'],
    ['ten jade', '10 jade'],
    ['two dozen jade', '24 jade'],
    ['twenty five jade', '25 jade'],
    ['2 x 10 jade', '20 jade'],
    ['a jade and a moss', '1 jade, 1 moss'],
    ['three tens snow and 1 moss', '30 snow, 1 moss'],
    ['10 green shrimp', '10 green'],
    ['10 pieces of the GREEN.', '10 green'],
    ['Oranges 20\n green 5', '20 orange, 5 green'],
    ['- 20 orange\n- 5 green', '20 orange, 5 green'],
    ['20 orange 10 green', '20 orange, 10 green'],
    ['5 jade, 3 snow, 5 jade', '10 jade, 3 snow'],
    ['10 blue  dream', '10 blue dream'],
    ['2 blue dream mosses', '2 blue dream moss'],
    ['10 blue dream, 2 moss', '10 blue dream, 2 moss'],
    ['3 boxes; 1 leaf', '3 box, 1 leaves'],
  ])('%j', (text, expected) => {
    expect(plain(text)).toBe(expected);
  });

  it('tells lines from goods, and reads a name that is both as the line', () => {
    expect(read('1 moss, 2 jade').items).toEqual([
      { of: 'goods', name: 'moss', number: 1 },
      { of: 'line', name: 'jade', number: 2 },
    ]);
    expect(parseItems('1 moss', { lines: ['moss'], goods: ['moss'] }).items[0]?.of).toBe('line');
  });

  it('takes the exact name before one that only sounds like its plural', () => {
    expect(parseItems('2 pines', { lines: ['pine'], goods: ['pines'] }).items[0]?.name).toBe('pines');
  });

  it('understands names with numbers, signs and small words of their own', () => {
    const odd = { lines: ['grade 1', 'red & white', 'ten'], goods: ['x leaf', 'box no. 2'] };
    expect(printItems(parseItems('20 grade 1, 3 red & white + 2 x leaf, 4 box no. 2, 5 ten', odd).items)).toBe(
      '20 grade 1, 3 red & white, 2 x leaf, 4 box no. 2, 5 ten',
    );
  });

  it.each([
    ['20 ornge, 10 green', 'ornge', 'no-such-name', ['orange'], '20 orange, 10 green'],
    ['20 orange sakura', 'orange sakura', 'no-such-name', ['orange'], '20 orange'],
    ['20 foo, 3 jade', 'foo', 'no-such-name', [], null],
    ['20 orange green', 'orange green', 'no-such-name', ['orange', 'green'], null],
    ['ornge', 'ornge', 'no-such-name', ['orange'], null],
    ['0 orange', '0 orange', 'bad-number', [], null],
    ['-5 orange', '-5 orange', 'bad-number', [], null],
    ['2,5 orange', '2,5 orange', 'bad-number', [], null],
    ['1.5 orange', '1.5 orange', 'bad-number', [], null],
    ['1,000 orange', '1,000 orange', 'bad-number', [], null],
    ['99999999 orange', '99999999 orange', 'bad-number', [], null],
    ['20 10 orange', '20 10 orange', 'bad-number', [], null],
    ['orange', 'orange', 'no-number', [], null],
    ['10 green, orange', 'orange', 'no-number', [], null],
    ['12', '12', 'no-name', [], null],
    ['10 green, a ten', 'a ten', 'no-name', [], null],
  ])('%j reports %j: %s', (text, typed, why, near, mended) => {
    const found = read(text);
    expect(found.unknown).toEqual([{ typed, why, near }]);
    expect(found.mended).toBe(mended);
  });

  it('mends several slips at once, adding up what was meant twice', () => {
    expect(read('20 ornge 10 gren, 5 orange').mended).toBe('25 orange, 10 green');
  });

  it('has nothing to mend where all is understood or nothing was typed', () => {
    expect(read('20 orange').mended).toBeNull();
    expect(read('')).toEqual({ items: [], unknown: [], mended: null });
  });

  it('gives a printed list back', () => {
    const all = [...names.lines, ...names.goods];
    const lists = fc.uniqueArray(
      fc.record({ name: fc.constantFrom(...all), number: fc.integer({ min: 1, max: 5000 }) }),
      { selector: (item) => item.name, minLength: 1 },
    );
    fc.assert(
      fc.property(lists, fc.constantFrom(', ', ' + ', '\n', ' and ', '; ', ' '), (list, between) => {
        const text = printItems(list).replaceAll(', ', between);
        const found = read(text);
        expect(found.unknown).toEqual([]);
        expect(found.items.map(({ name, number }) => ({ name, number }))).toEqual(list);
      }),
    );
  });

  it('loses no word, whatever is typed', () => {
    const words = fc.constantFrom(
      '20',
      '0',
      'orange',
      'moss',
      'blue',
      'dream',
      'ornge',
      'foo',
      ',',
      '+',
      'x',
      'ten',
      'a',
      '-3',
    );
    fc.assert(
      fc.property(fc.array(words, { maxLength: 9 }), (typed) => {
        const { items, unknown } = read(typed.join(' '));
        const told = `${printItems(items)} ${unknown.map((piece) => piece.typed).join(' ')}`;
        for (const word of ['foo', 'ornge', 'orange', 'moss', '0', '-3']) {
          if (typed.some((one) => one === word)) expect(told).toContain(word);
        }
        const numbers = typed.some((word) => ['20', 'ten', 'a'].includes(word));
        expect(numbers && items.length + unknown.length === 0).toBe(false);
      }),
    );
  });
});
