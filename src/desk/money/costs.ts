import {
  type By,
  type Cost,
  type CostKind,
  type CostLogged,
  dayOf,
  fail,
  type Instant,
  kindInWords,
  monthOf,
  ok,
  type Period,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import { businessOf, type Desk, log } from '../desk.ts';
import { findTub } from '../find.ts';
import { whenOf } from '../when.ts';
import { spanOf } from './span.ts';

export interface CostInput {
  readonly amountMinor: number;
  readonly what: string;
  /** By default the kind that the words say ("postage 41"), else other. */
  readonly kind?: CostKind | undefined;
  readonly at?: Instant | undefined;
  /** The tub that it was for; its line bears it. */
  readonly tub?: string | undefined;
  /** The asker said that it is another one. */
  readonly again?: boolean | undefined;
}

/** Characters of what a cost was for that stand in its heading. */
const mostInSummary = 60;

/** Logs money that went out. The same amount of the same kind and tub twice on a day is asked about: both may have logged one receipt. */
export function logCost(desk: Desk, by: By, input: CostInput): Result<CostLogged, Refusal> {
  const what = input.what.trim();
  if (what === '') return fail({ kind: 'nothing-given', what: 'what it was for' });
  if (input.amountMinor <= 0) return fail({ kind: 'nothing-given', what: 'an amount over 0' });
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  const tub = input.tub === undefined || input.tub.trim() === '' ? ok(null) : findTub(desk, input.tub);
  if (!tub.ok) return tub;
  const kind = input.kind ?? kindInWords(what) ?? 'other';
  const { zone } = businessOf(desk);
  const day = dayOf(at.value, zone);
  return desk.store.write(() => {
    const same = costsIn(desk, { first: day, last: day }).find(
      (cost) => cost.amountMinor === input.amountMinor && cost.kind === kind && cost.tub?.id === tub.value?.id,
    );
    if (same !== undefined && input.again !== true) {
      return fail({
        kind: 'ask-cost-twice',
        ...{ amountMinor: same.amountMinor, what: same.what, at: same.loggedAt, by: same.by },
      });
    }
    const shown = what.length > mostInSummary ? `${what.slice(0, mostInSummary - 1)}…` : what;
    const entryId = log(desk, by, 'cost', `cost, ${kind}: ${shown.replace(/\s+/g, ' ')}`, (entry) => {
      const cost = { at: at.value, amountMinor: input.amountMinor, what, kind, tubId: tub.value?.id ?? null };
      desk.store.costs.addCost(entry, cost);
    });
    const cost = desk.store.costs.ofEntry(entryId);
    if (cost === undefined) throw new Error(`the cost of entry ${entryId} is not in the books`);
    const kindInMonthMinor = costsIn(desk, monthOf(day))
      .filter((each) => each.kind === kind)
      .reduce((sum, { amountMinor }) => sum + amountMinor, 0);
    return ok({ cost, kindInMonthMinor, entryId });
  });
}

/** Costs of some days, oldest first. */
export function costsIn(desk: Desk, period: Period): Cost[] {
  const { from, to } = spanOf(desk, period);
  return desk.store.costs.between(from, to);
}
