import {
  amount,
  type By,
  fail,
  firstImpossible,
  folded,
  type Goods,
  type Instant,
  type Line,
  nearest,
  ok,
  type PackingNeed,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import { type Desk, log } from '../desk.ts';
import { packingNeedOf } from '../dispatch/packingNeeds.ts';
import { findLine } from '../find.ts';
import { isName } from '../setup.ts';
import { goodsHeldUntil } from './carried.ts';

export interface GoodsInput {
  readonly name: string;
  readonly priceMinor?: number | undefined;
  /** Pieces that came in; negative: that broke or went otherwise. */
  readonly add?: number | undefined;
  /** The line whose young it may carry. */
  readonly line?: string | undefined;
  readonly keepAtLeast?: number | undefined;
}

/** Goods with what is promised of them. */
export interface GoodsStock {
  readonly goods: Goods;
  readonly promised: number;
  readonly free: number;
  /** Under the number that is to be kept: buy. */
  readonly low: boolean;
}

export interface GoodsAnswer extends GoodsStock {
  /** How far it lasts for the parcels ahead; null: none is packed in it. */
  readonly need: PackingNeed | null;
  /** When the newest pieces may go, where it may carry young; null: all may. */
  readonly heldUntil: Instant | null;
  readonly isNew: boolean;
  readonly added: number;
  /** Other goods whose names are so near that this one may be a slip. */
  readonly near: readonly string[];
  /** Null: nothing was changed, only looked up. */
  readonly entryId: number | null;
}

const stockWith = (desk: Desk, goods: Goods): GoodsStock => {
  const promised = desk.store.promises.ofGoods(goods.id, desk.now());
  const free = goods.stock - promised;
  return { goods, promised, free, low: free < goods.keepAtLeast };
};

/** The same with how far it lasts for the parcels ahead. */
function aheadWith(desk: Desk, goods: Goods): Omit<GoodsAnswer, 'isNew' | 'added' | 'near' | 'entryId'> {
  const known = stockWith(desk, goods);
  const need = packingNeedOf(desk, goods);
  const low = known.low || (need !== null && (need.shortOn !== null || need.lowOn !== null));
  return { ...known, low, need, heldUntil: goodsHeldUntil(desk, goods) };
}

/** All goods with what is free of them. */
export const goodsStock = (desk: Desk): GoodsStock[] => desk.store.goods.goods().map((goods) => stockWith(desk, goods));

/** Shows goods by name, or sets what is given about them; a new name is added. */
export function setGoods(desk: Desk, by: By, input: GoodsInput): Result<GoodsAnswer, Refusal> {
  const name = input.name.trim();
  const { priceMinor, add, keepAtLeast } = input;
  const all = desk.store.goods.goods();
  const old = all.find((goods) => folded(goods.name) === folded(name));
  const asks = priceMinor === undefined && add === undefined && input.line === undefined && keepAtLeast === undefined;
  const names = all.map((goods) => goods.name);
  if (asks && old === undefined)
    return fail({ kind: 'unknown', noun: 'goods', typed: name, near: nearest(name, names) });
  if (asks && old !== undefined)
    return ok({ ...aheadWith(desk, old), isNew: false, added: 0, near: [], entryId: null });
  const refused = old === undefined ? newNameRefused(desk, name) : null;
  const amounts = refused ?? amountsRefused(old, input);
  if (amounts !== null) return fail(amounts);
  const line: Result<Line | null | undefined, Refusal> =
    input.line === undefined
      ? ok(undefined)
      : input.line.trim().toLowerCase() === 'none'
        ? ok(null)
        : findLine(desk, input.line);
  if (!line.ok) return line;

  const wanted = {
    name: old?.name ?? name,
    priceMinor: priceMinor ?? old?.priceMinor ?? null,
    lineId: line.value === undefined ? (old?.lineId ?? null) : (line.value?.id ?? null),
    keepAtLeast: keepAtLeast ?? old?.keepAtLeast ?? 0,
  };
  const onlyStock =
    old !== undefined && priceMinor === undefined && line.value === undefined && keepAtLeast === undefined;
  let id = old?.id ?? 0;
  const entryId = log(desk, by, 'goods', summaryOf(wanted.name, old === undefined, add ?? 0), (entry, now) => {
    if (old === undefined) id = desk.store.goods.addGoods(entry, wanted);
    else if (!onlyStock) desk.store.goods.editGoods(entry, { ...wanted, id });
    if (add !== undefined) desk.store.goods.addStock(entry, id, now, add);
  });
  const goods = desk.store.goods.goods().find((each) => each.id === id);
  if (goods === undefined) throw new Error(`goods ${id} are not in the books`);
  const near = old === undefined ? nearest(name, names) : [];
  return ok({ ...aheadWith(desk, goods), isNew: old === undefined, added: add ?? 0, near, entryId });
}

function newNameRefused(desk: Desk, name: string): Refusal | null {
  if (!isName(name)) return { kind: 'bad-name', noun: 'goods', typed: name };
  // An order names lines and goods alike, so one name can't be both.
  const line = desk.store.tubs.lines().find((each) => folded(each.name) === folded(name));
  return line === undefined ? null : { kind: 'name-taken', noun: 'line', name: line.name };
}

function amountsRefused(old: Goods | undefined, { add, keepAtLeast }: GoodsInput): Refusal | null {
  const refused = firstImpossible([['pieces', keepAtLeast === 0 ? undefined : keepAtLeast]]);
  if (refused !== null) return refused;
  if (add === undefined) return null;
  const pieces = amount('pieces', Math.abs(add));
  if (!pieces.ok) return pieces.fault;
  const there = old?.stock ?? 0;
  return there + add < 0 ? { kind: 'too-few-goods', what: old?.name ?? 'them', out: -add, there } : null;
}

function summaryOf(name: string, isNew: boolean, add: number): string {
  if (add > 0) return `${name}: ${add} added`;
  if (add < 0) return `${name}: ${-add} taken out`;
  return isNew ? `added goods ${name}` : `changed goods ${name}`;
}
