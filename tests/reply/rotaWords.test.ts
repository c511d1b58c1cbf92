import { describe, expect, it } from 'vitest';
import { type Chore, type ChoreTarget, day, defaultBusiness, type Instant } from '../../src/domain/index.ts';
import { rotaTodayCard, voiceFor } from '../../src/reply/index.ts';
import type { RotaLine } from '../../src/reply/rotaWords.ts';

const now = '2027-04-13T17:00:00.000Z' as Instant;
const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, now);

const chore = (id: number, name: string, act: Chore['act'], everyDays: number, scope: Chore['scope']): Chore => ({
  id,
  name,
  act,
  everyDays,
  minutes: 5,
  scope,
  season: 'all',
  dependsOn: 'interval',
  userId: null,
  off: false,
  addedAt: now,
});
const change = chore(1, 'water change', 'change', 7, 'tub');
const feed = chore(2, 'feed', 'own', 2, 'rack');
const pumpFoam = chore(3, 'pump foam', 'own', 30, 'business');

const onTub = (name: string): ChoreTarget => ({
  of: 'tub',
  tubId: Number(name.slice(1)),
  name,
  rack: name.slice(0, 1),
});
const line = (of: Chore, target: ChoreTarget, lateDays = 0): RotaLine => ({
  due: {
    chore: of,
    target,
    dueOn: day('2027-04-13'),
    everyDays: of.everyDays,
    until: null,
    lastDone: null,
    later: null,
    handedTo: null,
  },
  on: day('2027-04-13'),
  userId: 'user-wren',
  partner: 'wren',
  litres: null,
  done: null,
  lateDays,
  tubId: 1,
});
const todayOf = (lines: readonly RotaLine[]): string | undefined => rotaTodayCard(voice, lines, null).why?.[0];

describe('the chores of a day in a line', () => {
  it('call late only what is', () => {
    expect(todayOf([line(change, onTub('A1'), 1), line(change, onTub('A2'))])).toBe(
      'wren (10 min): water change A1 (1 day late), A2',
    );
  });

  it('say from when to when the late ones are', () => {
    expect(todayOf([line(change, onTub('A3'), 6), line(change, onTub('A1'), 2)])).toBe(
      'wren (10 min): water change A1 and A3 (2 to 6 days late)',
    );
  });

  it('begin with the water, then with what has waited longest for its interval', () => {
    expect(
      todayOf([
        line(pumpFoam, { of: 'business' }, 3),
        line(feed, { of: 'rack', rack: 'A' }, 2),
        line(feed, { of: 'rack', rack: 'B' }),
        line(change, onTub('A1')),
      ]),
    ).toBe('wren (20 min): water change A1 · feed rack A (2 days late), B · pump foam (3 days late)');
  });
});
