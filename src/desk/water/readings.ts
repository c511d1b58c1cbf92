import {
  areSwapped,
  type Business,
  type By,
  canBe,
  celsiusOf,
  dayMs,
  fail,
  hourMs,
  type Instant,
  likelySlips,
  type Mended,
  mendings,
  noWaterValues,
  ok,
  plusMs,
  type ReadingLogged,
  type Refusal,
  type Result,
  readInterval,
  type SameLook,
  slipsAlone,
  slipsOverTop,
  type Tub,
  type WaterValueName,
  type WaterValues,
} from '../../domain/index.ts';
import { businessOf, type Desk, log, nth } from '../desk.ts';
import { findTub } from '../find.ts';
import { whenOf } from '../when.ts';
import { changePlanOf, type Rack, rackOf } from './changePlan.ts';
import { standingOf } from './facts.ts';
import { oddReading } from './odd.ts';
import { movingValues } from './trends.ts';
import { verdictOn } from './verdict.ts';

/** Values as typed, on the scale of the business's units; what was left out is undefined. */
export type TypedValues = { readonly [K in WaterValueName]?: number | undefined };

export interface ReadingInput {
  readonly tub: string;
  readonly values: TypedValues;
  readonly at?: Instant | undefined;
  readonly note?: string | undefined;
  /** The asker said that an unlikely value is right. */
  readonly sure?: boolean | undefined;
  /** The values are metric already, whatever the business's units. */
  readonly metric?: boolean | undefined;
}

/** What was written of a reading. */
export type ReadingNoted = Pick<ReadingLogged, 'tub' | 'reading' | 'entryId'>;

/** Checks and writes a reading. Temperatures come on the scale of the business's units. */
export function noteReading(desk: Desk, by: By, input: ReadingInput): Result<ReadingNoted, Refusal> {
  const business = businessOf(desk);
  const found = findTub(desk, input.tub);
  if (!found.ok) return found;
  const tub = found.value;
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  const values = metric(desk, business, tub, input, at.value);
  if (!values.ok) return values;
  const entryId = log(desk, by, 'reading', `${tub.name} reading${shortValues(values.value)}`, (entry) => {
    desk.store.water.addReading(entry, {
      ...values.value,
      tubId: tub.id,
      at: at.value,
      note: input.note?.trim() || null,
    });
  });
  return ok({ tub, reading: { ...values.value, at: at.value }, entryId });
}

/** Writes a reading and judges it. */
export function logReading(desk: Desk, by: By, input: ReadingInput): Result<ReadingLogged, Refusal> {
  const noted = noteReading(desk, by, input);
  return noted.ok ? ok(judged(desk, noted.value)) : noted;
}

/** A reading with its verdict, the change that follows, and what does not fit. */
export function judged(desk: Desk, noted: ReadingNoted): ReadingLogged {
  const { tub, reading, entryId } = noted;
  const { nitrateMgL } = reading;
  const rack = rackOf(desk);
  return {
    ...noted,
    verdict: verdictOn(desk, rack.business, tub, reading),
    plan: changePlanOf(desk, tub, rack),
    kit: nitrateMgL === null ? null : readInterval(nitrateMgL, rack.business.kitStepsMgL),
    odd: oddReading(desk, rack, tub, { ...reading, entryId }),
    sameLook: sameLookOf(desk, rack, noted),
    trends: movingValues(desk, tub).filter(({ name }) => reading[name] !== null),
    standing: standingOf(desk, rack.business, tub),
  };
}

/** Within this time two looks at the same nitrate are one look. */
const sameLookMs = hourMs;

function sameLookOf(desk: Desk, { nitrate }: Rack, { tub, reading, entryId }: ReadingNoted): SameLook | null {
  if (reading.nitrateMgL === null) return null;
  const before = desk.store.water
    .readings(tub.id, plusMs(reading.at, -sameLookMs))
    .findLast((one) => one.at <= reading.at && one.entryId < entryId && one.nitrateMgL !== null);
  return before?.nitrateMgL === reading.nitrateMgL
    ? { by: before.by, at: before.at, isCounted: nitrate.wasAsked(tub, reading.at) }
    : null;
}

function shortValues(values: WaterValues): string {
  const words: Record<WaterValueName, (value: number) => string> = {
    nitrateMgL: (value) => `NO3 ${value}`,
    nitriteMgL: (value) => `NO2 ${value}`,
    ammoniaMgL: (value) => `NH4 ${value}`,
    tempC: (value) => `${Number(value.toFixed(1))} °C`,
    ph: (value) => `pH ${value}`,
    ghDgh: (value) => `GH ${value}`,
    khDkh: (value) => `KH ${value}`,
    tdsMgL: (value) => `TDS ${value}`,
  };
  return (Object.keys(words) as WaterValueName[])
    .flatMap((name) => (values[name] === null ? [] : [`, ${words[name](values[name])}`]))
    .join('');
}

/** An older value says nothing of a slip, in days. */
const freshDays = 60;

/** The typed values in metric, all possible ones, or the refusal of the first that cannot be, or hardly so. */
function metric(
  desk: Desk,
  business: Business,
  tub: Tub,
  input: ReadingInput,
  at: Instant,
): Result<WaterValues, Refusal> {
  const { values: typed } = input;
  const values: Record<WaterValueName, number | null> = { ...noWaterValues };
  const swapped = swappedOf(business, tub, typed);
  if (swapped !== null) return fail(swapped);
  for (const name of Object.keys(values) as WaterValueName[]) {
    const given = typed[name];
    if (given === undefined) continue;
    const inFahrenheit = name === 'tempC' && isFahrenheit(business, input);
    const value = inFahrenheit ? celsiusOf(given) : given;
    const last = desk.store.water.latestWith(tub.id, name, at);
    const before = last?.[name] ?? null;
    if (!canBe(name, value)) {
      return fail({
        kind: 'impossible-water',
        tub: tub.name,
        value: name,
        typed: given,
        mended: mendings(name, given, inFahrenheit),
        last: last === undefined || before === null ? null : { value: before, at: last.at },
      });
    }
    const isFresh = last !== undefined && last.at >= plusMs(at, -freshDays * dayMs);
    const slips = input.sure === true ? [] : slipsOf(business, name, value, isFresh ? before : null);
    if (slips.length > 0) {
      const shown = last === undefined || before === null || !isFresh ? null : { value: before, at: last.at };
      return fail({
        kind: 'ask-unlikely-water',
        tub: tub.name,
        value: name,
        typed: given,
        mended: slips,
        last: shown,
      });
    }
    values[name] = value;
  }
  const isEmpty = Object.values(values).every((value) => value === null);
  return isEmpty ? fail({ kind: 'nothing-given', what: 'at least one value, like temp or nitrate' }) : ok(values);
}

const isFahrenheit = ({ units }: Business, { metric: isMetric }: ReadingInput): boolean =>
  units === 'us' && isMetric !== true;

/** What a value that can be probably was meant to be, beside the tub's last one; null: not read of late. */
const slipsOf = (business: Business, name: WaterValueName, value: number, last: number | null): readonly Mended[] => {
  if (name === 'nitrateMgL') return slipsOverTop(value, business.kitStepsMgL, last);
  return last === null ? slipsAlone(name, value) : likelySlips(name, value, last);
};

/** The question whether temperature and pH were typed in each other's place; null: they were not. */
function swappedOf({ units }: Business, tub: Tub, { tempC: temp, ph }: TypedValues): Refusal | null {
  if (temp === undefined || ph === undefined) return null;
  const inC = (value: number): number => (units === 'us' ? celsiusOf(value) : value);
  return areSwapped({ tempC: inC(temp), ph }, { tempC: inC(ph), ph: temp })
    ? { kind: 'ask-swapped-water', tub: tub.name, temp, ph }
    : null;
}

export interface SheetRow {
  readonly tub: string;
  readonly values: TypedValues;
  readonly note?: string | undefined;
}

/** Logs the rows of a sheet, each as an entry of its own; a row that is refused does not stop the others. */
export function logSheet(
  desk: Desk,
  by: By,
  rows: readonly SheetRow[],
): { row: SheetRow; result: Result<ReadingLogged, Refusal> }[] {
  return desk.store.write(() => rows.map((row, index) => ({ row, result: logReading(desk, nth(by, index), row) })));
}
