import { describe, expect, it } from 'vitest';
import { type SimulatedYear, simulateYear } from './simulatedYear.ts';
import { faultsOf, slotsOf } from './yearFaults.ts';

/** Every write and post at which the process can be killed. */
const places = ['claim', 'claim again', 'settle', 'pass', 'tell', 'write', 'publish'].flatMap((at) => [
  `before ${at}`,
  `after ${at}`,
]);

// Clocks change by an hour north of the equator, and by half an hour south of it, in a zone of half hours.
const years: SimulatedYear[] = [];
describe.each(['Europe/Amsterdam', 'America/St_Johns', 'Australia/Lord_Howe'])('a year in %s', (zone) => {
  it('of kills at every write and post, and of hours and weeks off, posts each post once or folds it', async () => {
    const year = await simulateYear(zone, 5);
    years.push(year);
    expect(faultsOf(year)).toEqual([]);
    expect(slotsOf(year).length).toBeGreaterThan(1350);
    expect(year.posts.length).toBeGreaterThan(600);
    expect(year.daysOff).toBeGreaterThan(20);
    expect(year.ledger.some(({ state }) => state === 'folded')).toBe(true);
    expect(year.posts.some(({ lateMinutes }) => lateMinutes > 60)).toBe(true);
  });
});

it('was killed before and after each of them', () => {
  const killed = new Set(years.flatMap(({ kills }) => [...kills.keys()]));
  expect(places.filter((place) => !killed.has(place))).toEqual([]);
});

it('finds what is wrong: a post twice, a post lost, a slot left open, a post left out that nobody is told of', () => {
  const [year] = years;
  if (year === undefined) throw new Error('no year');
  const [first] = year.posts;
  if (first === undefined) throw new Error('no post');
  expect(faultsOf({ ...year, posts: [...year.posts, { ...first, told: [] }] })).toEqual([
    `${first.key} is there twice`,
  ]);
  expect(faultsOf({ ...year, posts: year.posts.filter(({ key }) => key !== first.key) })).toContain(
    `${first.key} is sent but not there`,
  );
  expect(faultsOf({ ...year, ledger: year.ledger.filter(({ job, day }) => `${job}-${day}` !== first.key) })).toContain(
    `${first.key} was never settled`,
  );
  expect(faultsOf({ ...year, posts: year.posts.map((post) => ({ ...post, told: [] })) }).join()).toMatch(
    /was left out and nobody was told/,
  );
});
