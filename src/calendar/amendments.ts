import { day, type LocalDay } from '../domain/index.ts';

/** A public holiday that the library does not know, or one that it names and that is not kept. */
export interface Amendment {
  readonly region: string;
  readonly day: LocalDay;
  readonly name: string;
  readonly change: 'added' | 'removed';
  readonly source: string;
}

/** Holidays are proclaimed and moved at short notice; each entry names where it was published. */
export const amendments: readonly Amendment[] = [
  {
    region: 'GB-SCT',
    day: day('2026-06-15'),
    name: 'World Cup bank holiday',
    change: 'added',
    source: 'GOV.UK bank holidays, alphagov/frontend lib/data/bank-holidays.json, commit cb2a016, 21 Aug 2026',
  },
];
