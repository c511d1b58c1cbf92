import { expect, it } from 'vitest';
import { claimEndsAt, type Instant } from '../../../src/domain/index.ts';

it.each([
  [24, '2027-04-14T11:05:00.000Z'],
  [2, '2027-04-13T13:05:00.000Z'],
  [0.5, '2027-04-13T11:35:00.000Z'],
])('dead animals may be reported for %d hours from delivery', (hours, expected) => {
  expect(claimEndsAt('2027-04-13T11:05:00.000Z' as Instant, hours)).toBe(expected);
});
