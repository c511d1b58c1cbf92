import {
  type By,
  fail,
  firstImpossible,
  folded,
  type Instant,
  ok,
  type Refusal,
  type Result,
  saleableBy,
  type Tub,
  type TubRole,
} from '../../domain/index.ts';
import { businessOf, type Desk, log } from '../desk.ts';
import { findLine, findTub, tubsInUse } from '../find.ts';
import { plantChores } from '../rota/starterChores.ts';
import { isRackName, isTubName } from '../setup.ts';
import { stepsSince, tubStock } from './stock.ts';

/** Part of a tub's gross volume that is water where nobody measured it: 25 L hold about 20 (common practice, no source). */
const netShare = 0.8;

export interface TubInput {
  readonly names: readonly string[];
  readonly line: string;
  readonly litres: number;
  readonly netLitres?: number | undefined;
  readonly rack?: string | undefined;
  readonly role?: TubRole | undefined;
}

const roundTenth = (value: number): number => Math.round(value * 10) / 10;

/** The rack that a tub's name says: the letters before its number, else "A". */
const rackOf = (name: string): string => /^\p{L}{1,10}(?=\s*\d)/u.exec(name)?.[0].toUpperCase() ?? 'A';

/** Adds one tub or a range; all or none. */
export function addTubs(desk: Desk, by: By, input: TubInput): Result<readonly Tub[], Refusal> {
  const line = findLine(desk, input.line);
  if (!line.ok) return line;
  const netLitres = input.netLitres ?? roundTenth(input.litres * netShare);
  const refused = firstImpossible([
    ['litres', input.litres],
    ['net litres', netLitres],
  ]);
  if (refused !== null) return fail(refused);
  const rack = input.rack?.trim() || null;
  if (rack !== null && !isRackName(rack)) return fail({ kind: 'bad-name', noun: 'rack', typed: rack });
  if (netLitres > input.litres) {
    return fail({
      kind: 'impossible-amount',
      amount: 'net litres',
      typed: netLitres,
      min: 0.1,
      max: input.litres,
      whole: false,
    });
  }
  const taken = new Set(tubsInUse(desk).map(({ name }) => folded(name)));
  for (const name of input.names) {
    if (!isTubName(name)) return fail({ kind: 'bad-name', noun: 'tub', typed: name });
    if (taken.has(folded(name))) return fail({ kind: 'name-taken', noun: 'tub', name });
    taken.add(folded(name));
  }
  const added: Tub[] = [];
  const first = input.names[0] ?? '';
  const summary = input.names.length === 1 ? `added tub ${first}` : `added tubs ${first} to ${input.names.at(-1)}`;
  desk.store.write(() => {
    log(desk, by, 'tub', `${summary} (${line.value.name}, ${input.litres} L)`, (entryId, now) => {
      for (const name of input.names) {
        const tub = {
          name,
          lineId: line.value.id,
          litres: input.litres,
          netLitres,
          rack: rack ?? rackOf(name),
          role: input.role ?? 'breeding',
          addedAt: now,
        };
        const id = desk.store.tubs.addTub(entryId, tub);
        added.push({ ...tub, id, lineName: line.value.name, retired: null });
      }
    });
    plantChores(desk, by);
  });
  return ok(added);
}

export interface TubEdit {
  readonly tub: string;
  readonly name?: string | undefined;
  readonly line?: string | undefined;
  readonly litres?: number | undefined;
  readonly netLitres?: number | undefined;
  readonly rack?: string | undefined;
  readonly role?: TubRole | undefined;
  /** The asker said that the animals in it are of the new line. */
  readonly sure?: boolean | undefined;
}

/** Changes what is known of a tub; what leaves it as it was is not written. */
export function editTub(desk: Desk, by: By, input: TubEdit): Result<{ before: Tub; after: Tub }, Refusal> {
  const found = findTub(desk, input.tub);
  if (!found.ok) return found;
  const before = found.value;
  const { tub: _, sure, ...given } = input;
  if (Object.values(given).every((value) => value === undefined)) {
    return fail({ kind: 'nothing-given', what: 'name, line, litres, net-litres, rack or role' });
  }
  const refused = firstImpossible([
    ['litres', input.litres],
    ['net litres', input.netLitres],
  ]);
  if (refused !== null) return fail(refused);
  const line = input.line === undefined ? null : findLine(desk, input.line);
  if (line !== null && !line.ok) return line;
  const name = input.name?.trim() ?? before.name;
  if (!isTubName(name)) return fail({ kind: 'bad-name', noun: 'tub', typed: name });
  if (tubsInUse(desk).some((tub) => tub.id !== before.id && folded(tub.name) === folded(name))) {
    return fail({ kind: 'name-taken', noun: 'tub', name });
  }
  const litres = input.litres ?? before.litres;
  const netLitres =
    input.netLitres ??
    (input.litres === undefined ? before.netLitres : roundTenth((before.netLitres / before.litres) * litres));
  const rack = input.rack?.trim() || before.rack;
  if (!isRackName(rack)) return fail({ kind: 'bad-name', noun: 'rack', typed: rack });
  if (netLitres > litres) {
    return fail({
      kind: 'impossible-amount',
      amount: 'net litres',
      typed: netLitres,
      min: 0.1,
      max: litres,
      whole: false,
    });
  }
  const saleable = line === null ? 0 : stillThere(desk, before);
  if (line !== null && line.value.id !== before.lineId && saleable > 0 && sure !== true) {
    return fail({ kind: 'ask-relabel', tub: before.name, from: before.lineName, to: line.value.name, saleable });
  }
  const after: Tub = {
    ...before,
    name,
    litres,
    netLitres,
    lineId: line?.value.id ?? before.lineId,
    lineName: line?.value.name ?? before.lineName,
    rack,
    role: input.role ?? before.role,
  };
  if ((Object.keys(after) as (keyof Tub)[]).every((field) => after[field] === before[field]))
    return ok({ before, after });
  log(desk, by, 'tub', `changed tub ${before.name}`, (entryId) => {
    desk.store.tubs.editTub(entryId, after);
  });
  return ok({ before, after });
}

/** Saleable animals that are likely in a tub; 0 where it was counted empty, or emptied since, whatever may have grown up unseen. */
function stillThere(desk: Desk, tub: Tub): number {
  const count = desk.store.animals.latestCount(tub.id);
  if (count === undefined || saleableBy(count, stepsSince(desk, tub.id, count.at)) === 0) return 0;
  return tubStock(desk, businessOf(desk), tub).saleable ?? 0;
}

/** Takes a tub out of use; its history stays. A tub that still holds saleable animals is kept: move or count them first. */
export function retireTub(
  desk: Desk,
  by: By,
  typed: string,
  reason: string,
): Result<{ tub: Tub; at: Instant; entryId: number }, Refusal> {
  const found = findTub(desk, typed);
  if (!found.ok) return found;
  const tub = found.value;
  const saleable = stillThere(desk, tub);
  if (saleable > 0) return fail({ kind: 'tub-in-use', tub: tub.name, saleable });
  const at = desk.now();
  const entryId = log(desk, by, 'tub', `retired tub ${tub.name}: ${reason}`, (entry) => {
    desk.store.tubs.editTub(entry, { ...tub, retired: { at, reason } });
  });
  return ok({ tub, at, entryId });
}
