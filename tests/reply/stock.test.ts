import { describe, expect, it } from 'vitest';
import {
  day,
  defaultBusiness,
  type Instant,
  type Line,
  lineStock,
  type Tub,
  type TubStock,
} from '../../src/domain/index.ts';
import { stockCard, voiceFor } from '../../src/reply/index.ts';
import { stockOfTub } from '../support/stock.ts';
import { expectPhone } from './phone.ts';

const now = '2027-04-13T17:00:00.000Z' as Instant;
const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, now);
const line = (id: number, name: string): Line => ({ id, name, priceMinor: 250, saleableMm: 15, holdBack: 10 });
let ids = 0;
const tub = (name: string, saleable: number | readonly [number, number] | null, countedAt: string = now): TubStock => {
  ids += 1;
  const own: Tub = {
    id: ids,
    name,
    lineId: 1,
    lineName: 'orange',
    litres: 25,
    netLitres: 20,
    rack: 'A',
    role: 'breeding',
    addedAt: now,
    retired: null,
  };
  return stockOfTub(own, saleable, { at: countedAt as Instant });
};

describe('the card of a line', () => {
  it('says what is free first, from what, and which count would help most', () => {
    const tubs = [tub('A1', [30, 80], '2027-04-01T08:00:00.000Z'), tub('A2', 30, '2027-04-10T08:00:00.000Z')];
    const card = stockCard(voice, [lineStock(line(1, 'orange'), tubs, 20, 4)]);
    expectPhone(card);
    // A1 between 30 and 80 gives 20 to 70 over its breeders, A2 20; less 24 promised.
    expect(card).toMatchObject({
      title: 'orange: 21 free to promise',
      why: [
        'Saleable 85 (65–105) in 2 tubs, counted 3 to 12 days ago',
        'Held back 20 · promised 20 + 4 extras · off sale 0',
        'Free 41 (21–61); offer 20 in tens',
      ],
      table: ['A1      55 35–75    12 days ago', 'A2      30 30–30    3 days ago'],
      next: 'Count A1 in full, it would narrow this most',
    });
    expect(card.controls?.[0]?.[1]).toMatchObject({ label: 'Count A1' });
  });

  it('says not counted yet and never 0', () => {
    const card = stockCard(voice, [lineStock(line(1, 'orange'), [tub('A1', null), tub('A2', null)], 0, 0)]);
    expectPhone(card);
    expect(card.title).toBe('orange: not counted yet');
    expect(JSON.stringify(card)).not.toMatch(/\b0 free/);
    expect(card.next).toBe('Count A1 with /count log');
  });

  it('says plainly when too many are promised', () => {
    const card = stockCard(voice, [lineStock(line(1, 'orange'), [tub('A1', 12)], 5, 1)]);
    expect(card.title).toBe('orange: 4 promised too many');
    expect(JSON.stringify(card)).not.toMatch(/-\d/);
  });

  it('does not ask for a count that was made today, nor where there is hardly a doubt', () => {
    expect(stockCard(voice, [lineStock(line(1, 'orange'), [tub('A1', [30, 80])], 0, 0)]).next).toBeUndefined();
    const sure = tub('A1', 40, '2027-04-01T08:00:00.000Z');
    expect(stockCard(voice, [lineStock(line(1, 'orange'), [sure], 0, 0)]).next).toBeUndefined();
  });

  it('says what a month brings', () => {
    const of = lineStock(line(1, 'orange'), [tub('A1', 40)], 0, 0);
    const later = lineStock(line(1, 'orange'), [tub('A1', [40, 80])], 0, 0);
    const card = stockCard(voice, [of], null, { day: day('2027-05-11'), stock: later });
    expectPhone(card);
    expect(card.why).toContain('By Tue 11 May: 50 (34–66) free if nothing more is sold');
  });

  it('says what a day ahead is told by', () => {
    const card = stockCard(voice, [lineStock(line(1, 'orange'), [tub('A1', 40)], 0, 0)], day('2027-05-01'));
    expectPhone(card);
    expect(card.title).toBe('orange: 30 free to promise on Sat 1 May');
    expect(card.why?.[0]).toBe('As foreseen by season and counts, if nothing more is sold until then');
  });
});

describe('the card of all lines', () => {
  it('has the columns under their heads', () => {
    const card = stockCard(voice, [
      lineStock(line(1, 'tangerine'), [tub('A1', 140)], 20, 4),
      lineStock(line(2, 'moss green'), [tub('B1', null)], 0, 0),
      lineStock(line(3, 'snow'), [], 0, 0),
    ]);
    expectPhone(card);
    expect(card.title).toBe('Stock: 106 free to promise');
    expect(card.table).toEqual([
      'line      free  sale  kept prom  off',
      'tangerine  106   140    10   24    0',
      'moss gree   not counted yet',
      'snow        no tubs',
    ]);
    expect(card.next).toBe('Count B1 with /count log');
  });

  it('says not counted yet while nothing is', () => {
    const card = stockCard(voice, [
      lineStock(line(1, 'orange'), [tub('A1', null)], 0, 0),
      lineStock(line(2, 'green'), [tub('B1', null)], 0, 0),
    ]);
    expect(card.title).toBe('Stock: not counted yet');
  });

  it('says where to begin when there is no line', () => {
    expect(stockCard(voice, [])).toMatchObject({ title: 'No lines yet', next: 'Add one first' });
  });
});
