import { describe, expect, it } from 'vitest';
import { day, defaultBusiness, type Instant, type PackingNeed } from '../../src/domain/index.ts';
import { carriedLines, goodsCard, voiceFor } from '../../src/reply/index.ts';
import { expectPhone } from './phone.ts';

const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, '2027-03-14T09:00:00.000Z' as Instant);
const box = { id: 1, name: 'box', priceMinor: null, stock: 2, lineId: null, lineName: null, keepAtLeast: 1 };
const need: PackingNeed = { pieces: 3, lastDay: day('2027-03-17'), shortOn: null, lowOn: null, buy: 0 };
const answer = { goods: box, promised: 0, free: 2, low: false, need, heldUntil: null };
const card = (more: Partial<Parameters<typeof goodsCard>[2]>) => {
  const made = goodsCard(voice, 'wren', { ...answer, isNew: false, added: 0, near: [], entryId: null, ...more });
  expectPhone(made);
  return [made.title, ...(made.why ?? []), ...(made.next === undefined ? [] : [made.next])];
};

describe('the card of packing goods', () => {
  it('says before which parcels they run out, and what to buy', () => {
    expect(card({ low: true, need: { ...need, shortOn: day('2027-03-17'), buy: 2 } })).toEqual([
      'box: 2 there, buy more',
      '2 there, 0 promised',
      'Parcels up to Wed 17 Mar take 3: too few from Wed 17 Mar',
      'No price: packing, not sold',
      'Keep at least 1',
      'Buy at least 2 pieces before Wed 17 Mar',
    ]);
  });

  it('says today of today', () => {
    const today = card({ low: true, need: { ...need, shortOn: day('2027-03-14'), buy: 2 } });
    expect(today).toContain('Parcels up to Wed 17 Mar take 3: too few from today');
    expect(today.at(-1)).toBe('Buy at least 2 pieces today');
  });

  it('says when they are only low, and when they last', () => {
    const low = card({ low: true, need: { ...need, pieces: 2, lowOn: day('2027-03-16'), buy: 1 } });
    expect(low).toContain('Parcels up to Wed 17 Mar take 2: under 1 from Tue 16 Mar');
    expect(low.at(-1)).toBe('Buy at least 1');
    expect(card({ need: { ...need, pieces: 1 } })).toContain('Parcels up to Wed 17 Mar take 1: 1 left then');
    expect(card({ need: { ...need, pieces: 0, lastDay: null } })).toContain('No parcel ahead takes any');
  });
});

it('says until when moss is held, and to whom it should not go', () => {
  const moss = { ...box, name: 'moss', priceMinor: 400, lineId: 1, lineName: 'jade' };
  const until = '2027-03-16T09:00:00.000Z' as Instant;
  expect(card({ goods: moss, need: null, heldUntil: until })).toContain(
    'Hold what came in rinsed and apart until Tue 16 Mar 10:00 (48 h)',
  );
  expect(
    carriedLines(voice, {
      crossing: [{ goods: 'moss', line: 'jade', others: ['snow'] }],
      notHeld: [{ goods: 'moss', held: 1, until }],
    }),
  ).toEqual([
    'Mind: moss may carry young jade; this buyer has snow',
    'moss: only 1 held 48 h by then, all from Tue 16 Mar 10:00',
  ]);
});
