// Words for a month or a year of the books, looking back from Wednesday 3 March 2027.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { day } from '../../src/domain/index.ts';
import { parsePeriod } from '../../src/words/index.ts';

fc.configureGlobal({ seed: 20270303 });

const today = day('2027-03-03');
const read = (text: string): string | undefined => {
  const said = parsePeriod(text, today);
  if (!said.ok) return undefined;
  return said.value.of === 'year' ? `year ${said.value.year}` : said.value.first;
};

describe('words for a month or a year', () => {
  it.each([
    ['this month', '2027-03-01'],
    ['last month', '2027-02-01'],
    ['March', '2027-03-01'],
    ['feb', '2027-02-01'],
    ['april', '2026-04-01'],
    ['Dec.', '2026-12-01'],
    ['Sept 2025', '2025-09-01'],
    ['june, 2026', '2026-06-01'],
    ['2026-10', '2026-10-01'],
    ['2026-1', '2026-01-01'],
    ['10/2026', '2026-10-01'],
    ['2027-12', '2027-12-01'],
    ['2026', 'year 2026'],
    ['this year', 'year 2027'],
    ['last year', 'year 2026'],
  ])('%s', (text, expected) => {
    expect(read(text)).toBe(expected);
  });

  it.each(['', '2027-13', '2027-00', '1999', '0000', '13/2026', 'sometime', 'mar 27', '2026-10-05', 'Mayday'])(
    'not %j',
    (text) => {
      expect(parsePeriod(text, today)).toMatchObject({ ok: false, fault: { kind: 'bad-words', what: 'month' } });
    },
  );

  it('are read or refused, whatever is typed', () => {
    fc.assert(fc.property(fc.string(), (text) => void parsePeriod(text, today)));
  });
});
