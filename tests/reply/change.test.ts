import { describe, expect, it } from 'vitest';
import { day, defaultBusiness, type Instant, type Tub } from '../../src/domain/index.ts';
import { changePlanCard, tubPlanCard, voiceFor } from '../../src/reply/index.ts';
import { knownNitrate, plannedAt } from '../support/water.ts';
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
  plan: plannedAt(nitrateMgL, dueOn, isUrgent ? { harmOn: day(dueOn) } : {}),
  odd: null,
  isOdd: false,
  standing: [],
});

describe('the plan of one tub', () => {
  it.each([
    [null, 'No nitrate reading of late: the least of your policy'],
    [12, '2 L (10 %) gives about 11: the least of your policy'],
    [22, 'Under 20 until the next; such changes hold about 9'],
    [40, '4 changes, 3 days apart, get it under 20'],
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
      'Ammonia or nitrite harms: the most that is borne at once',
    );
  });

  it('says that the limit cannot be held, the floor and what helps', () => {
    const policy = { ...defaultBusiness, sourceNitrateMgL: 30 };
    const plan = plannedAt(40, '2027-04-13', { policy });
    const card = tubPlanCard(voice, { tub: tub('A3'), plan, odd: null, standing: [] });
    expectPhone(card);
    expect(card.why).toContain('No change gets under 20: the source water is not, floor about 33 mg/L');
    expect(card.why).toContain('Helps: source water of at most 17 mg/L: /setup water target-nitrate');
    const fast = plannedAt(30, '2027-04-13', { estimate: knownNitrate(30, 0.8) });
    expect(tubPlanCard(voice, { tub: tub('A3'), plan: fast, odd: null, standing: [] }).why).toContain(
      'Or a rise under 3.8 mg/L a week (less food, more plants)',
    );
  });

  it('says how far it moves minerals, and why it comes in parts', () => {
    const source = { tempC: null, tdsMgL: 180, ghDgh: 2 };
    const near = { tempC: null, tdsMgL: 240, ghDgh: 4 };
    const card = tubPlanCard(voice, {
      tub: tub('A3'),
      plan: plannedAt(30, '2027-04-13', { source, water: near }),
      odd: null,
      standing: [],
    });
    expect(card.why).toContain('TDS moves 240 → 225 · GH moves 4 → 3.5: fine');
    const far = plannedAt(30, '2027-04-13', { source, water: { ...near, ghDgh: 14 } });
    const parts = tubPlanCard(voice, { tub: tub('A3'), plan: far, odd: null, standing: [] });
    expectPhone(parts);
    expect(parts.why).toContain('GH moves 14 → 12.5; 5 L at once would be too far');
  });
});

describe('the plan of all tubs', () => {
  it('has those due, the sum of their water, and the next one', () => {
    const card = changePlanCard(
      voice,
      [planned('A1', 40, '2027-04-10', 1), planned('A10', null, '2027-04-13', 2), planned('B2', null, '2027-04-14', 3)],
      [{ rack: 'A', litres: 7, buckets: 1, bucketLitres: 10, mix: null }],
    );
    expectPhone(card);
    expect(card.title).toBe('2 changes today, 7 L');
    expect(card.table).toEqual([
      'tub    change NO3',
      'A1        5 L 40→31  1 of 4 3 d late',
      'A10       2 L        no test',
    ]);
    expect(card.why).toEqual(['Rack A: 7 L, 1 bucket of 10 L', 'Then B2 tomorrow']);
  });

  it('puts what harms today first, and a single tub on a button alone', () => {
    const plans = [planned('A1', 40, '2027-04-10', 1), planned('A5', null, '2027-04-13', 5, true)];
    const card = changePlanCard(voice, plans, []);
    expect(card.table?.[1]).toBe('A5        5 L        act');
    expect(card.controls?.map((row) => row[0]?.kind)).toEqual(['button', 'select']);
    const one = changePlanCard(voice, [planned('A1', 40, '2027-04-10', 1)], []);
    expect(one.controls).toHaveLength(1);
    expect(one.controls?.[0]?.[0]).toMatchObject({ kind: 'button', label: 'A1 changed 5 L' });
  });

  it('is content when nothing is due', () => {
    expect(changePlanCard(voice, [planned('B2', null, '2027-04-16')], [])).toMatchObject({
      title: 'No change due today',
      why: ['Then B2 Fri 16 Apr'],
    });
  });

  it('keeps to twenty-five ticks, and says how many more there are', () => {
    const card = changePlanCard(
      voice,
      Array.from({ length: 30 }, (_, n) => planned(`A${n + 1}`, null, '2027-04-13', n + 1)),
      [],
    );
    expect(card.title).toBe('30 changes today, 60 L');
    const [ticks] = card.controls?.[1] ?? [];
    expect(ticks?.kind === 'select' && ticks.options).toHaveLength(25);
    expect(card.why).toContain('and 5 more tubs');
  });
});
