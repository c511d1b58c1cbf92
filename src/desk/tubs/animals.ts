import {
  amount,
  type By,
  type CountLogged,
  dayMs,
  fail,
  firstImpossible,
  type HoldSet,
  type Instant,
  type LocalDay,
  type LossLogged,
  type MoveLogged,
  ok,
  plusMs,
  type Refusal,
  type Result,
  type Stage,
  type Tub,
  type TypedCountMethod,
} from '../../domain/index.ts';
import { colonyNow } from '../colony/colony.ts';
import { businessOf, type Desk, log, todayOf } from '../desk.ts';
import { findTub } from '../find.ts';
import { whenOf } from '../when.ts';
import { dishCount } from './dish.ts';
import { tubStock } from './stock.ts';

/** Animals per litre of net water above which a count or move is asked about; crowding slows growth long before (common practice). */
const manyPerLitre = 25;

export interface CountInput {
  readonly tub: string;
  readonly saleable: number;
  readonly juveniles?: number | undefined;
  readonly berried?: number | undefined;
  readonly method?: TypedCountMethod | undefined;
  readonly at?: Instant | undefined;
  readonly sure?: boolean | undefined;
}

/** A count as it is written. */
type CountNoted = Pick<CountLogged, 'tub' | 'saleable' | 'juveniles' | 'berried' | 'at'> & {
  readonly method: TypedCountMethod;
};

/** Checks and writes a count. */
export function noteCount(
  desk: Desk,
  by: By,
  input: CountInput,
): Result<CountNoted & Pick<CountLogged, 'entryId'>, Refusal> {
  const checked = checkedCount(desk, input);
  return checked.ok ? ok({ ...checked.value, entryId: writeCount(desk, by, checked.value) }) : checked;
}

/** Writes a count, and says what was believed before it and is now. */
export function logCount(desk: Desk, by: By, input: CountInput): Result<CountLogged, Refusal> {
  const checked = checkedCount(desk, input);
  if (!checked.ok) return checked;
  const { tub, method, saleable, at } = checked.value;
  const before = believedBefore(desk, tub, at);
  const dish = method === 'dish' ? dishCount(desk, tub, saleable) : null;
  const entryId = writeCount(desk, by, checked.value);
  return ok({ ...checked.value, ...before, ...believedAfter(desk, tub, entryId), dish, entryId });
}

function checkedCount(desk: Desk, input: CountInput): Result<CountNoted, Refusal> {
  const found = findTub(desk, input.tub);
  if (!found.ok) return found;
  const tub = found.value;
  const refused = firstImpossible([
    ['saleable', input.saleable],
    ['juveniles', input.juveniles],
    ['berried', input.berried],
  ]);
  if (refused !== null) return fail(refused);
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  const tooMany = tooManyFor(tub, input.saleable + (input.juveniles ?? 0));
  if (input.sure !== true && tooMany !== null) return fail(tooMany);
  return ok({
    tub,
    saleable: input.saleable,
    juveniles: input.juveniles ?? null,
    berried: input.berried ?? null,
    method: input.method ?? 'glance',
    at: at.value,
  });
}

const writeCount = (desk: Desk, by: By, { tub, ...count }: CountNoted): number =>
  log(desk, by, 'count', `${tub.name} counted ${count.saleable} saleable (${count.method})`, (entry) => {
    desk.store.animals.addCount(entry, { ...count, tubId: tub.id });
  });

/** The question about more animals than a tub usually holds; null: it may well hold so many. */
export const tooManyFor = (tub: Tub, number: number): Refusal | null =>
  number > manyPerLitre * tub.netLitres ? { kind: 'ask-many', tub: tub.name, number, litres: tub.netLitres } : null;

/** What is believed of a tub before a count of a moment is logged, and the newer count that will stand all the same. */
export function believedBefore(desk: Desk, tub: Tub, at: Instant): Pick<CountLogged, 'expected' | 'newer'> {
  const { counted, range } = tubStock(desk, businessOf(desk), tub);
  const newer = counted !== null && counted.at > at ? counted : null;
  return { expected: newer === null ? range : null, newer };
}

/** What is believed of a tub now that an entry is in, and whether that entry was a surprise. */
export function believedAfter(desk: Desk, tub: Tub, entryId: number): Pick<CountLogged, 'now' | 'surprise'> {
  const { surprises } = colonyNow(desk, businessOf(desk), tub);
  const surprise = surprises.find((one) => one.entryId === entryId) ?? null;
  return { now: tubStock(desk, businessOf(desk), tub).range, surprise };
}

export interface MoveInput {
  readonly from: string;
  readonly to: string;
  readonly number: number;
  readonly stage?: Stage | undefined;
  readonly at?: Instant | undefined;
  /** The asker said that the lines may mix. */
  readonly mix?: boolean | undefined;
}

/** Moves animals between tubs; a move into a tub of another line is asked about first. */
export function logMove(desk: Desk, by: By, input: MoveInput): Result<MoveLogged, Refusal> {
  const from = findTub(desk, input.from);
  if (!from.ok) return from;
  const to = findTub(desk, input.to);
  if (!to.ok) return to;
  if (from.value.id === to.value.id) return fail({ kind: 'same-tub', tub: from.value.name });
  const number = amount('animals', input.number);
  if (!number.ok) return number;
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  const stage = input.stage ?? 'saleable';
  if (stage === 'saleable') {
    const refused = tooFew(desk, from.value, input.number, at.value);
    if (refused !== null) return fail(refused);
  }
  if (input.mix !== true && from.value.lineId !== to.value.lineId) {
    return fail({
      kind: 'ask-mix-lines',
      from: from.value.name,
      fromLine: from.value.lineName,
      to: to.value.name,
      toLine: to.value.lineName,
      number: input.number,
    });
  }
  const entryId = log(
    desk,
    by,
    'move',
    `moved ${input.number} from ${from.value.name} to ${to.value.name}`,
    (entry) => {
      desk.store.animals.addMove(entry, {
        fromTubId: from.value.id,
        toTubId: to.value.id,
        number: input.number,
        stage,
        at: at.value,
      });
    },
  );
  const business = businessOf(desk);
  return ok({
    from: from.value,
    to: to.value,
    number: input.number,
    stage,
    at: at.value,
    left: tubStock(desk, business, from.value).saleable,
    there: tubStock(desk, business, to.value).saleable,
    entryId,
  });
}

/** A counted tub can't give more than it may well hold; what was before its count is not judged. */
function tooFew(desk: Desk, tub: Tub, number: number, at: Instant, alsoThere = 0): Refusal | null {
  const { range, counted } = tubStock(desk, businessOf(desk), tub);
  if (range === null || counted === null || at < counted.at) return null;
  const there = range.high + alsoThere;
  return number <= there ? null : { kind: 'too-few-there', tub: tub.name, number, there, countedAt: counted.at };
}

export function logLoss(
  desk: Desk,
  by: By,
  input: {
    readonly tub: string;
    readonly number: number;
    readonly cause?: string | undefined;
    readonly at?: Instant | undefined;
  },
): Result<LossLogged, Refusal> {
  const found = findTub(desk, input.tub);
  if (!found.ok) return found;
  const tub = found.value;
  const number = amount('animals', input.number);
  if (!number.ok) return number;
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  // The dead may be young ones: those of the last count are there too.
  const juveniles = desk.store.animals.latestCount(tub.id)?.juveniles ?? 0;
  const refused = tooFew(desk, tub, input.number, at.value, juveniles);
  if (refused !== null) return fail(refused);
  const cause = input.cause?.trim() || null;
  const entryId = log(desk, by, 'loss', `${tub.name} ${input.number} found dead`, (entry) => {
    desk.store.animals.addLoss(entry, { tubId: tub.id, number: input.number, cause, at: at.value });
  });
  const inAWeek = desk.store.animals
    .losses(tub.id, plusMs(at.value, -7 * dayMs))
    .reduce((sum, loss) => sum + loss.number, 0);
  return ok({
    tub,
    number: input.number,
    cause,
    at: at.value,
    left: tubStock(desk, businessOf(desk), tub).saleable,
    inAWeek,
    entryId,
  });
}

/** Takes a tub off sale up to and including a day (null: until lifted), or lifts that. */
export function setHold(
  desk: Desk,
  by: By,
  input: { readonly tub: string; readonly reason: string; readonly until: LocalDay | 'now' | null },
): Result<HoldSet, Refusal> {
  const found = findTub(desk, input.tub);
  if (!found.ok) return found;
  const tub = found.value;
  const today = todayOf(desk);
  const lifted = input.until === 'now';
  const until = input.until === 'now' ? null : input.until;
  if (until !== null && until < today) return fail({ kind: 'past-day', day: until, today });
  if (lifted && tubStock(desk, businessOf(desk), tub).offSale === null)
    return fail({ kind: 'not-held', tub: tub.name });
  const entryId = log(
    desk,
    by,
    'hold',
    lifted ? `${tub.name} back on sale` : `${tub.name} off sale: ${input.reason}`,
    (entry, now) => {
      desk.store.animals.addHold(entry, { tubId: tub.id, at: now, reason: input.reason, until }, lifted);
    },
  );
  return ok({ tub, reason: input.reason, until, lifted, entryId });
}
