import {
  amount,
  type By,
  fail,
  folded,
  type Line,
  type LocalDay,
  nearest,
  offersFor,
  ok,
  type Refusal,
  type Result,
  type SaleItem,
  type Waiting,
  type WaitingOffer,
  wishesAfter,
} from '../../domain/index.ts';
import { businessOf, type Desk, log, todayOf } from '../desk.ts';
import { judgeDay, nextDayFor } from '../dispatch/judge.ts';
import { findLine } from '../find.ts';
import { isName } from '../setup.ts';
import { stockOf } from '../tubs/stock.ts';
import { buyerIdOf } from './buyers.ts';
import { extrasBy } from './items.ts';

/** Who waits for a line, in the order of entry, with what could be sold to each now. */
export interface WaitingList {
  readonly line: Line;
  /** Free to promise now; null: none of its tubs is counted. */
  readonly free: number | null;
  readonly offers: readonly WaitingOffer[];
  /** The next day on which a parcel may leave, while a closed window runs; null: none runs. */
  readonly opensFor: LocalDay | null;
}

/** The waiting lists of all lines that somebody waits for; of one line also when nobody does. */
export function waitingLists(
  desk: Desk,
  asked: { readonly line?: string | undefined; readonly buyer?: string | undefined } = {},
): Result<WaitingList[], Refusal> {
  const line = asked.line === undefined ? ok(undefined) : findLine(desk, asked.line);
  if (!line.ok) return line;
  const lists = (line.value === undefined ? desk.store.tubs.lines() : [line.value]).map((each) => listOf(desk, each));
  if (asked.buyer === undefined) {
    return ok(lists.filter(({ offers }) => line.value !== undefined || offers.length > 0));
  }
  const name = folded(asked.buyer);
  const theirs = lists
    .map((list) => ({ ...list, offers: list.offers.filter(({ waiting }) => folded(waiting.buyer) === name) }))
    .filter(({ offers }) => offers.length > 0);
  if (theirs.length > 0) return ok(theirs);
  const names = [...new Set(desk.store.waiting.all().map(({ buyer }) => buyer))];
  return fail({ kind: 'unknown', noun: 'buyer', typed: asked.buyer, near: nearest(asked.buyer, names) });
}

function listOf(desk: Desk, line: Line): WaitingList {
  const { free, tubs, uncounted } = stockOf(desk, line);
  const queue = desk.store.waiting.all().filter(({ lineId }) => lineId === line.id);
  const isCounted = uncounted.length < tubs.length;
  return {
    line,
    free: isCounted ? free : null,
    offers: offersFor(queue, isCounted ? free : 0, extrasBy(desk, businessOf(desk))),
    opensFor: opensFor(desk),
  };
}

function opensFor(desk: Desk): LocalDay | null {
  const here = { area: null, region: null };
  const isClosed = judgeDay(desk, todayOf(desk), here).reasons.some(({ kind }) => kind === 'closed-window');
  return isClosed ? nextDayFor(desk, here) : null;
}

export interface WaitingInput {
  readonly line: string;
  readonly number: number;
  readonly buyer: string;
  /** The asker said to the question that the number changes; the place stays. */
  readonly change?: boolean | undefined;
}

export interface WaitingLogged {
  readonly list: WaitingList;
  readonly buyer: string;
  readonly number: number;
  /** How many are before it on the list. */
  readonly before: number;
  readonly entryId: number;
}

/** Puts a buyer on a line's waiting list; one who is on it is asked about, and keeps the place with another number. */
export function addWaiting(desk: Desk, by: By, input: WaitingInput): Result<WaitingLogged, Refusal> {
  const line = findLine(desk, input.line);
  if (!line.ok) return line;
  const number = amount('animals', input.number);
  if (!number.ok) return number;
  const buyer = input.buyer.trim();
  if (!isName(buyer)) return fail({ kind: 'bad-name', noun: 'buyer', typed: input.buyer });
  return desk.store.write(() => {
    const there = desk.store.waiting
      .all()
      .find((each) => each.lineId === line.value.id && folded(each.buyer) === folded(buyer));
    if (there !== undefined && input.change !== true) {
      const { number: now, loggedAt: at, by: who } = there;
      const known = { buyer: there.buyer, line: line.value.name, number: now, typed: number.value };
      return fail({ kind: 'ask-waiting-already', ...known, at, by: who });
    }
    const entryId = log(desk, by, 'waiting', `waiting list: ${number.value} ${line.value.name}`, (entry, at) => {
      if (there !== undefined) return desk.store.waiting.change(entry, there.id, number.value);
      const buyerId = buyerIdOf(desk, entry, buyer);
      if (buyerId !== null) desk.store.waiting.add(entry, { lineId: line.value.id, buyerId, number: number.value, at });
    });
    const list = listOf(desk, line.value);
    const before = list.offers.findIndex(({ waiting }) =>
      there === undefined ? waiting.entryId === entryId : waiting.id === there.id,
    );
    return ok({ list, buyer: there?.buyer ?? buyer, number: number.value, before, entryId });
  });
}

/** A place on the list with its line's list, by the id that controls carry; undefined: it is off the list. */
export function waitingById(
  desk: Desk,
  id: number,
): { readonly list: WaitingList; readonly at: number; readonly offer: WaitingOffer } | undefined {
  const waiting = desk.store.waiting.all().find((each) => each.id === id);
  const line = desk.store.tubs.lines().find((each) => each.id === waiting?.lineId);
  if (line === undefined) return undefined;
  const list = listOf(desk, line);
  const at = list.offers.findIndex((each) => each.waiting.id === id);
  const offer = list.offers[at];
  return offer === undefined ? undefined : { list, at, offer };
}

export interface WaitingOff {
  readonly waiting: Waiting;
  readonly list: WaitingList;
  readonly entryId: number;
}

/** Takes a place off the list; undefined where it is off already. */
export function takeOffWaiting(desk: Desk, by: By, id: number): WaitingOff | undefined {
  return desk.store.write(() => {
    const found = waitingById(desk, id);
    if (found === undefined) return undefined;
    const { waiting } = found.offer;
    const { line } = found.list;
    const entryId = log(desk, by, 'waiting', `off the waiting list: ${waiting.number} ${line.name}`, (entry) => {
      desk.store.waiting.change(entry, id, 0);
    });
    return { waiting, list: listOf(desk, line), entryId };
  });
}

/** A line that a buyer waited for and is sold now, with the number still waited for. */
export interface WishSold {
  readonly line: string;
  readonly left: number;
}

/** Takes what is sold to a buyer off their places on the waiting list, in the sale's own entry, so that undoing it brings them back. */
export function takeSoldOff(
  desk: Desk,
  entryId: number,
  buyerId: number | null,
  items: readonly SaleItem[],
): WishSold[] {
  const wishes = desk.store.waiting.all().filter((each) => each.buyerId === buyerId);
  return items.flatMap((item) => {
    const own = wishes.filter(({ lineId }) => item.of === 'line' && lineId === item.id);
    const changed = wishesAfter(own, item.number);
    for (const { waiting, left } of changed) desk.store.waiting.change(entryId, waiting.id, left);
    const wanted = own.reduce((sum, { number }) => sum + number, 0);
    return changed.length === 0 ? [] : [{ line: item.name, left: Math.max(0, wanted - item.number) }];
  });
}
