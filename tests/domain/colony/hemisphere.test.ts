import { expect, it } from 'vitest';
import { hemisphereOf } from '../../../src/domain/index.ts';

it.each([
  ['Europe/Amsterdam', 'north'],
  ['America/New_York', 'north'],
  // Clocks go back in winter there, by the letter of the law; they are ahead in June all the same.
  ['Europe/Dublin', 'north'],
  ['Australia/Lord_Howe', 'south'],
  ['Pacific/Auckland', 'south'],
  ['America/Santiago', 'south'],
  ['Asia/Tokyo', null],
  ['Asia/Kolkata', null],
  ['UTC', null],
])('%s is %s', (zone, hemisphere) => {
  expect(hemisphereOf(zone)).toBe(hemisphere);
});
