import {
  type By,
  type ChangeLogged,
  canBe,
  dayMs,
  fail,
  type Instant,
  ok,
  plusMs,
  type Reading,
  type ReadingLogged,
  type Refusal,
  type Result,
  type Tub,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { tubById } from '../find.ts';
import { logChange } from './changes.ts';
import { judged, logReading } from './readings.ts';

/** A reading that is not voided, by its entry. */
function liveReading(desk: Desk, entryId: number): Result<{ reading: Reading; tub: Tub }, Refusal> {
  const entry = desk.store.entries.get(entryId);
  if (entry?.voided != null) {
    return fail({ kind: 'voided-already', summary: entry.summary, at: entry.voided.at, by: entry.voided.by });
  }
  const reading = desk.store.water.readingOfEntry(entryId);
  const tub = reading === undefined ? undefined : tubById(desk, reading.tubId);
  return reading === undefined || tub === undefined
    ? fail({ kind: 'unknown', noun: 'entry', typed: String(entryId), near: [] })
    : ok({ reading, tub });
}

/** A reading that was logged earlier, judged as it stands now; with who logged it and when. */
export function readingOf(
  desk: Desk,
  entryId: number,
): Result<{ readonly logged: ReadingLogged; readonly by: string; readonly loggedAt: Instant }, Refusal> {
  const found = liveReading(desk, entryId);
  if (!found.ok) return found;
  const { reading, tub } = found.value;
  return ok({ logged: judged(desk, { tub, reading, entryId }), by: reading.by, loggedAt: reading.loggedAt });
}

/** Puts another nitrate in the place of one that was typed wrong: the reading is voided and logged anew for the same moment. */
export function mendNitrate(desk: Desk, by: By, entryId: number, nitrateMgL: number): Result<ReadingLogged, Refusal> {
  return desk.store.write(() => {
    const found = liveReading(desk, entryId);
    if (!found.ok) return found;
    const { reading, tub } = found.value;
    if (!canBe('nitrateMgL', nitrateMgL)) throw new Error(`a button offered nitrate ${nitrateMgL}`);
    desk.store.entries.void(entryId, by, desk.now());
    const note = [reading.note, `nitrate was typed as ${reading.nitrateMgL}`].filter(Boolean).join('; ');
    const { tempC, ph, ghDgh, khDkh, tdsMgL, ammoniaMgL, nitriteMgL } = reading;
    const values = { tempC, ph, ghDgh, khDkh, tdsMgL, ammoniaMgL, nitriteMgL, nitrateMgL };
    return logReading(desk, by, {
      tub: tub.name,
      values: given(values),
      at: reading.at,
      note,
      sure: true,
      metric: true,
    });
  });
}

const given = <T extends object>(values: T): { [K in keyof T]: Exclude<T[K], null> | undefined } =>
  Object.fromEntries(Object.entries(values).map(([name, value]) => [name, value ?? undefined])) as {
    [K in keyof T]: Exclude<T[K], null> | undefined;
  };

/** A missed change lies no further before the reading than this, days: readings of a tub are seldom further apart. */
const missedDays = 120;

/**
 * Logs a change of the past that nobody logged, so that a reading follows from the books. Refused where somebody logged one for before
 * the reading since it was entered: the two would be the same.
 */
export function logMissedChange(
  desk: Desk,
  by: By,
  input: { readonly entryId: number; readonly litres: number; readonly at: Instant },
): Result<ChangeLogged, Refusal> {
  return desk.store.write(() => {
    const found = liveReading(desk, input.entryId);
    if (!found.ok) return found;
    const { reading, tub } = found.value;
    const { litres, at } = input;
    const logged = desk.store.water
      .changes(tub.id, plusMs(reading.at, -missedDays * dayMs))
      .findLast((change) => change.at < reading.at && change.entryId > input.entryId);
    if (logged !== undefined) {
      return fail({
        kind: 'change-logged-already',
        tub: tub.name,
        litres: logged.litres,
        at: logged.at,
        by: logged.by,
        loggedAt: logged.loggedAt,
      });
    }
    return logChange(desk, by, { tub: tub.name, litres, at, second: true, sure: true, note: 'logged afterwards' });
  });
}
