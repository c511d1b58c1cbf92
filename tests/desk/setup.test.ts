import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  addTubs,
  type BusinessPatch,
  businessOf,
  partnersOf,
  removePartner,
  setBusiness,
  setLine,
  setPartner,
  setupStep,
  undo,
} from '../../src/desk/index.ts';
import { day, defaultBusiness } from '../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';
import { rowCounts } from '../support/rowCounts.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T16:00:00Z', { zone: 'Europe/Lisbon' });
});
afterEach(() => bench.close());

const set = (patch: BusinessPatch) => setBusiness(bench.desk, bench.by('wren'), patch);
const person = (name: string) => ({ userId: `user-${name}`, name, bot: false });
const partner = (name: string, more: Omit<Parameters<typeof setPartner>[2], 'partner'> = {}) =>
  setPartner(bench.desk, bench.by('wren'), { partner: person(name), ...more });

describe('the first evening', () => {
  it('asks for a partner, a line and a tub, and for nothing else', () => {
    expect(setupStep(bench.desk)).toBe('partner');
    partner('wren');
    expect(setupStep(bench.desk)).toBe('line');
    setLine(bench.desk, bench.by('wren'), { line: 'orange' });
    expect(setupStep(bench.desk)).toBe('tub');
    addTubs(bench.desk, bench.by('wren'), { names: ['A1'], line: 'orange', litres: 25 });
    expect(setupStep(bench.desk)).toBe('done');
  });

  it('has the stated defaults, in the zone of the machine', () => {
    expect(businessOf(bench.desk)).toEqual({ ...defaultBusiness, zone: 'Europe/Lisbon' });
    expect(defaultBusiness).toMatchObject({
      dispatchDays: [1, 2, 3],
      transitDays: 1,
      slackDays: 1,
      minTempC: 5,
      maxTempC: 26,
      changeMinPercent: 10,
      changeMaxPercent: 25,
      changeIntervalDays: 7,
      nitrateLimitMgL: 20,
      keepDays: 3,
      claimHours: 24,
      claimPhoto: true,
      postageOwed: false,
      fullOrderLevelPercent: 98,
      morningAt: '07:30',
      eveningAt: '18:00',
      weeklyOn: 7,
      weeklyAt: '17:00',
    });
  });

  it('takes UTC where the machine has no known zone', () => {
    expect(businessOf({ ...bench.desk, machineZone: 'Nowhere/Land' }).zone).toBe('UTC');
  });
});

describe('the settings', () => {
  it('hold what was set and leave the rest', () => {
    set({ currency: 'GBP', nitrateLimitMgL: 30 });
    set({ currency: 'USD' });
    expect(businessOf(bench.desk)).toMatchObject({ currency: 'USD', nitrateLimitMgL: 30, units: 'metric' });
  });

  it('shows without writing when nothing is given', () => {
    const before = rowCounts(bench.folder);
    expect(set({ name: undefined })).toMatchObject({ ok: true, value: { name: 'the rack' } });
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it.each<[BusinessPatch, string]>([
    [{ zone: 'Europe/Atlantis' }, 'bad-words'],
    [{ region: 'ZZ' }, 'bad-words'],
    [{ currency: 'EURO' }, 'bad-words'],
    [{ currency: 'QQQ' }, 'bad-words'],
    [{ nitrateLimitMgL: 0 }, 'impossible-amount'],
    [{ sourceNitrateMgL: -5 }, 'impossible-amount'],
    [{ sourceTdsMgL: 1e6 }, 'impossible-amount'],
    [{ sourceGhDgh: Number.NaN }, 'impossible-amount'],
    [{ changeMinPercent: 30 }, 'impossible-amount'],
    [{ changeMinPercent: 30, changeMaxPercent: undefined }, 'impossible-amount'],
    [{ changeMaxPercent: 5 }, 'impossible-amount'],
    [{ changeIntervalDays: 2.5 }, 'impossible-amount'],
    [{ minTempC: 26 }, 'impossible-amount'],
    [{ maxTempC: 5 }, 'impossible-amount'],
    [{ keepDays: -1 }, 'impossible-amount'],
    [{ fullOrderLevelPercent: 100 }, 'impossible-amount'],
    [{ units: 'us', transitDays: 0 }, 'impossible-amount'],
  ])('refuse %o and keep none of it', (patch, kind) => {
    const before = rowCounts(bench.folder);
    expect(set(patch)).toMatchObject({ ok: false, fault: { kind } });
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it('take both bounds at once, though each alone would cross the other', () => {
    expect(set({ changeMinPercent: 30, changeMaxPercent: 50 })).toMatchObject({ ok: true });
  });
});

describe('a line', () => {
  it('is added once and then changed, by its name in any case', () => {
    setLine(bench.desk, bench.by('wren'), { line: 'Deep blue', priceMinor: 250, holdBack: 12 });
    const again = setLine(bench.desk, bench.by('wren'), { line: 'deep BLUE', saleableMm: 18 });
    expect(again).toMatchObject({ value: { added: false } });
    expect(bench.desk.store.tubs.lines()).toMatchObject([
      { name: 'Deep blue', priceMinor: 250, holdBack: 12, saleableMm: 18 },
    ]);
  });

  it.each([
    [{ line: '' }, 'bad-name'],
    [{ line: 'x'.repeat(31) }, 'bad-name'],
    [{ line: 'orange', holdBack: -1 }, 'impossible-amount'],
    [{ line: 'orange', saleableMm: 100 }, 'impossible-amount'],
  ])('%o is refused', (input, kind) => {
    expect(setLine(bench.desk, bench.by('wren'), input)).toMatchObject({ ok: false, fault: { kind } });
    expect(bench.desk.store.tubs.lines()).toEqual([]);
  });
});

describe('a partner', () => {
  it('is the owner when first, and none of the later ones unless it is said', () => {
    partner('wren');
    partner('alder');
    expect(partnersOf(bench.desk).map(({ name, owner }) => [name, owner])).toEqual([
      ['wren', true],
      ['alder', false],
    ]);
  });

  it('keeps what was not said', () => {
    partner('wren', { sharePercent: 60, never: ['feed'] });
    partner('wren', { awayFrom: day('2027-05-01'), awayTo: day('2027-05-10') });
    expect(partnersOf(bench.desk)).toMatchObject([{ sharePercent: 60, never: ['feed'], awayFrom: day('2027-05-01') }]);
    partner('wren', { awayFrom: null });
    expect(partnersOf(bench.desk)).toMatchObject([{ sharePercent: 60, awayFrom: null, awayTo: null }]);
  });

  it('goes away from today where only the end is said, and never ends before it begins', () => {
    partner('wren', { awayTo: day('2027-05-10') });
    expect(partnersOf(bench.desk)).toMatchObject([{ awayFrom: day('2027-04-13'), awayTo: day('2027-05-10') }]);
    expect(partner('wren', { awayFrom: day('2027-06-01') })).toMatchObject({
      fault: { kind: 'bad-words', what: 'day' },
    });
  });

  it('is a person, with a share that can be', () => {
    const robot = { ...person('robot'), bot: true };
    expect(setPartner(bench.desk, bench.by('wren'), { partner: robot })).toMatchObject({
      fault: { kind: 'not-a-person' },
    });
    expect(partner('wren', { sharePercent: 101 })).toMatchObject({ fault: { kind: 'impossible-amount' } });
    expect(partnersOf(bench.desk)).toEqual([]);
  });

  it('cannot leave the others without an owner', () => {
    partner('wren');
    partner('alder');
    const remove = (name: string) => removePartner(bench.desk, bench.by('wren'), person(name));
    expect(remove('wren')).toMatchObject({ fault: { kind: 'last-owner', name: 'wren' } });
    expect(partner('wren', { owner: false })).toMatchObject({ fault: { kind: 'last-owner' } });
    partner('alder', { owner: true });
    expect(remove('wren').ok).toBe(true);
    expect(remove('alder').ok).toBe(true);
    expect(remove('alder')).toMatchObject({ fault: { kind: 'unknown', noun: 'partner' } });
  });

  it('is as before when a change is undone, unless a later one carries it on', () => {
    partner('wren', { sharePercent: 60 });
    partner('wren', { sharePercent: 70 });
    const [latest, first] = bench.desk.store.entries.latest(2);
    expect(undo(bench.desk, bench.by('wren'), true, first?.id ?? 0)).toMatchObject({
      fault: { kind: 'others-rest-on-it' },
    });
    undo(bench.desk, bench.by('wren'), true, latest?.id ?? 0);
    expect(partnersOf(bench.desk)).toMatchObject([{ sharePercent: 60 }]);
  });
});
