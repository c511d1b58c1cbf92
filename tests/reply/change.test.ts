import { describe, expect, it } from 'vitest';
import { day, defaultBusiness, type Instant, planChange, type Tub } from '../../src/domain/index.ts';
import { changePlanCard, tubPlanCard, voiceFor } from '../../src/reply/index.ts';
import { expectPhone } from './phone.ts';

const now = '2027-04-13T17:00:00.000Z' as Instant;
const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, now);
const tub = (name: string, id = 1): Tub => ({
  id,
  name,
  lineId: 1,
  lineName: 'orange',
  litres: 25,
  netLitres: 20,
  rack: 'A',
  role: 'breeding',
  addedAt: now,
  retired: null,
});
const planned = (name: string, nitrateMgL: number | null, dueOn: string, id = 1, isUrgent = false) => ({
  tub: tub(name, id),
  plan: planChange(20, nitrateMgL, day(dueOn), defaultBusiness, isUrgent),
});

describe('the plan of one tub', () => {
  it.each([
    [null, 'No nitrate reading yet: the least of your policy'],
    [12, 'Under the limit: the least of your policy'],
    [22, 'Just enough to reach the limit'],
    [40, 'The most of your policy; 3 such changes reach the limit'],
  ])('at %s mg/L says why', (nitrateMgL, why) => {
    const card = tubPlanCard(voice, planned('A3', nitrateMgL, '2027-04-13'));
    expectPhone(card);
    expect(card.title).toMatch(/^A3: change [\d.]+ L today$/);
    expect(card.why).toContain(why);
  });

  it('says since when it is due', () => {
    const card = tubPlanCard(voice, planned('A3', 40, '2027-04-10'));
    expect(card.title).toBe('A3: change 5 L today');
    expect(card.why).toContain('Due since Sat 10 Apr');
    expect(tubPlanCard(voice, planned('A3', 40, '2027-04-14')).title).toBe('A3: change 5 L tomorrow');
  });

  it('says that it is for ammonia or nitrite', () => {
    expect(tubPlanCard(voice, planned('A3', null, '2027-04-13', 1, true)).why).toContain(
      'Ammonia or nitrite harms: the most of your policy',
    );
  });
});

describe('the plan of all tubs', () => {
  it('has those due, the sum of their water, and the next one', () => {
    const card = changePlanCard(voice, [
      planned('A1', 40, '2027-04-10', 1),
      planned('A10', null, '2027-04-13', 2),
      planned('B2', null, '2027-04-14', 3),
    ]);
    expectPhone(card);
    expect(card.title).toBe('2 changes today, 7 L');
    expect(card.table).toEqual(['A1        5 L  NO3  40  since 10 Apr', 'A10       2 L  NO3   –']);
    expect(card.why).toEqual(['Then B2 tomorrow']);
  });

  it('puts what harms today first, and a single tub on a button alone', () => {
    const card = changePlanCard(voice, [
      planned('A1', 40, '2027-04-10', 1),
      planned('A5', null, '2027-04-13', 5, true),
    ]);
    expect(card.table?.[0]).toBe('A5        5 L  act');
    expect(card.controls?.map((row) => row[0]?.kind)).toEqual(['button', 'select']);
    const one = changePlanCard(voice, [planned('A1', 40, '2027-04-10', 1)]);
    expect(one.controls).toHaveLength(1);
    expect(one.controls?.[0]?.[0]).toMatchObject({ kind: 'button', label: 'A1 changed 5 L' });
  });

  it('is content when nothing is due', () => {
    expect(changePlanCard(voice, [planned('B2', null, '2027-04-16')])).toMatchObject({
      title: 'No change due today',
      why: ['Then B2 Fri 16 Apr'],
    });
  });

  it('keeps to twenty-five ticks, and says how many more there are', () => {
    const card = changePlanCard(
      voice,
      Array.from({ length: 30 }, (_, n) => planned(`A${n + 1}`, null, '2027-04-13', n + 1)),
    );
    expect(card.title).toBe('30 changes today, 60 L');
    const [ticks] = card.controls?.[1] ?? [];
    expect(ticks?.kind === 'select' && ticks.options).toHaveLength(25);
    expect(card.why).toContain('and 5 more tubs');
  });
});
