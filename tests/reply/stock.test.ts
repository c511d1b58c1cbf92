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
import { expectPhone } from './phone.ts';

const now = '2027-04-13T17:00:00.000Z' as Instant;
const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, now);
const line = (id: number, name: string): Line => ({ id, name, priceMinor: 250, saleableMm: 15, holdBack: 10 });
const tub = (name: string, saleable: number | null, countedAt: string = now): TubStock => {
  const own: Tub = {
    id: 1,
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
  const counted = saleable === null ? null : { saleable, at: countedAt as Instant, by: 'wren' };
  return { tub: own, counted, saleable, offSale: null };
};

describe('the card of a line', () => {
  it('says what is free first, from what, and which count would help most', () => {
    const tubs = [tub('A1', 40, '2027-04-01T08:00:00.000Z'), tub('A2', 30, '2027-04-10T08:00:00.000Z')];
    const card = stockCard(voice, [lineStock(line(1, 'orange'), tubs, 20, 4)]);
    expectPhone(card);
    expect(card).toMatchObject({
      title: 'orange: 26 free to promise',
      why: ['Saleable 70 in 2 tubs, counted 3 to 12 days ago', 'Held back 20 · promised 20 + 4 extras · off sale 0'],
      table: ['A1      40  12 days ago', 'A2      30  3 days ago'],
      next: 'Count A1, its count is the oldest',
    });
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

  it('does not ask for a count that was made today', () => {
    expect(stockCard(voice, [lineStock(line(1, 'orange'), [tub('A1', 40)], 0, 0)]).next).toBeUndefined();
  });

  it('says of a day ahead what it does not know', () => {
    const card = stockCard(voice, [lineStock(line(1, 'orange'), [tub('A1', 40)], 0, 0)], day('2027-05-01'));
    expectPhone(card);
    expect(card.title).toBe('orange: 30 free to promise on Sat 1 May');
    expect(card.why?.[0]).toContain('births until then are not counted in');
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
