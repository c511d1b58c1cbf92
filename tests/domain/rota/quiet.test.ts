import { expect, it } from 'vitest';
import { isQuiet, type WallTime } from '../../../src/domain/index.ts';

const quiet = (time: string, morningAt = '07:30'): boolean => isQuiet(time as WallTime, morningAt as WallTime);

it.each([
  ['21:59', false],
  ['22:00', true],
  ['03:30', true],
  ['06:59', true],
  ['07:00', false],
])('%s is night: %s', (time, expected) => {
  expect(quiet(time)).toBe(expected);
});

it('ends with a morning post that is set earlier, and no later with one that is set later', () => {
  expect(quiet('05:30', '05:30')).toBe(false);
  expect(quiet('05:29', '05:30')).toBe(true);
  expect(quiet('07:00', '09:00')).toBe(false);
});
