import { describe, expect, it } from 'vitest';
import {
  type ArrivedParcel,
  day,
  defaultBusiness,
  type GuaranteeCost,
  type Instant,
  survivalRecord,
} from '../../src/domain/index.ts';
import { type ClaimRecord, claimRecordCard, voiceFor } from '../../src/reply/index.ts';
import { expectPhone } from './phone.ts';

const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, '2027-04-13T17:00:00.000Z' as Instant);

const parcel = (tubId: number, number: number, dead: number, more: Partial<ArrivedParcel> = {}): ArrivedParcel => ({
  catches: [{ tubId, lineId: tubId % 2, number }],
  ...{ ordered: number - 2, dead, transitDays: 1, air: 'mild' },
  ...more,
});
const cost: GuaranteeCost = {
  ...{ parcels: 14, refundsMinor: 600, resendsMinor: 800, extrasMinor: 5600, totalMinor: 7000, perParcelMinor: 500 },
  unpriced: 0,
};
function record(parcels: readonly ArrivedParcel[], more: Partial<ClaimRecord> = {}): ClaimRecord {
  const { byLine, byTub, ...rest } = survivalRecord(parcels);
  return {
    ...rest,
    ...{ from: day('2026-04-13'), months: 12, cost, unheard: 0 },
    byLine: byLine.map((group) => ({ ...group, name: group.key === 0 ? 'snow' : 'jade' })),
    byTub: byTub.map((group) => ({ ...group, name: `A${group.key}` })),
    ...more,
  };
}

describe('the card of the record', () => {
  it('says small numbers as numbers, with what the truth may be in plain words', () => {
    const card = claimRecordCard(voice, record([parcel(1, 38, 0)]), 'way');
    expectPhone(card);
    expect(card.title).toBe('12 months: 38 of 38 arrived alive');
    expect(card.why?.slice(0, 4)).toEqual([
      'With so few sent, true survival could be as low as 91 %',
      'Orders full: 1 of 1 (21–100 %)',
      'The guarantee cost €5.00 a parcel (14 sent)',
      'Refunds €6.00 · resends €8.00 · extras €56.00, at price',
    ]);
    expect(card.table).toEqual([
      'line         alive/sent    %   range %',
      'jade              38/38  100    91–100',
      'on the way:',
      '1 day             38/38  100    91–100',
      'air there:',
      'mild air          38/38  100    91–100',
    ]);
  });

  it('says a share with its range where there are many, names the few, and who did worse', () => {
    const many = Array.from({ length: 40 }, () => parcel(1, 24, 0));
    const card = claimRecordCard(
      voice,
      record([...many, parcel(3, 24, 9, { transitDays: 2, air: 'cold' }), parcel(2, 12, 0)], { unheard: 2 }),
      'way',
    );
    expectPhone(card);
    expect(card.title).toBe('12 months: 99.1 % (98–99.5 %) arrived alive');
    expect(card.why).toContain('With so few snow sent, true survival could be as low as 76 %');
    expect(card.why).toContain('Worse than the rest, hardly by chance: A3, 2 days and cold air');
    expect(card.why).toContain('2 parcels nobody has spoken of, not counted');
    expect(card.next).toBe('Look at A3 before you send more');
  });

  it('tells it by tub, the worst first, in as many rows as fit', () => {
    const parcels = Array.from({ length: 40 }, (_, index) => parcel(index + 1, 200 + index, index === 7 ? 20 : 0));
    const card = claimRecordCard(voice, record(parcels), 'tub');
    expectPhone(card);
    expect(card.table?.[1]).toBe('A8              187/207   90     86–94');
    expect(card.table?.at(-1)).toBe('and 24 more, all better');
  });

  it('says that nothing is known yet, and what to do', () => {
    const card = claimRecordCard(voice, record([], { months: 3, unheard: 1 }), 'way');
    expectPhone(card);
    expect(card).toMatchObject({
      title: '3 months: no arrivals logged',
      next: 'Say how a parcel arrived with /dispatch arrived',
    });
  });

  it('fits a phone with long names and large numbers', () => {
    const card = claimRecordCard(
      voice,
      record(
        Array.from({ length: 30 }, () => parcel(1, 4000, 13)),
        { byLine: [{ ...record([parcel(1, 90, 1)]).byLine[0], name: 'chocolate of the north' } as never] },
      ),
      'way',
    );
    expectPhone(card);
  });
});
