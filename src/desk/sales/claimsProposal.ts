import {
  type ClaimProposal,
  type ClaimQuestion,
  claimProposal,
  type LinePart,
  missingByLine,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk } from '../desk.ts';
import { nextDayFor } from '../dispatch/judge.ts';
import { stockOf } from '../tubs/stock.ts';
import { extrasBy } from './items.ts';

/** What a claim on a sale comes to by the terms, as the stock and the days ahead are now. */
export const proposalFor = (desk: Desk, sale: BookedSale, claim: ClaimQuestion['claim']): ClaimProposal =>
  claimProposal({
    sale,
    claim,
    terms: businessOf(desk),
    canResend: (animals) =>
      resendItems(desk, sale, animals).every(({ free, number, extras }) => free >= number + extras),
    resendOn: nextDayFor(desk, sale),
  });

export interface ResendItem extends LinePart {
  readonly extras: number;
  /** At which one was sold. */
  readonly priceMinor: number | null;
  /** Free to promise now. */
  readonly free: number;
}

/** The missing animals by line, with the extras that go with them and what is free of each line. */
export function resendItems(desk: Desk, sale: BookedSale, missing: number): ResendItem[] {
  const extrasOf = extrasBy(desk, businessOf(desk));
  const lines = new Map(desk.store.tubs.lines().map((line) => [line.id, line]));
  return missingByLine(sale.items, missing).flatMap((part) => {
    const line = lines.get(part.lineId);
    if (line === undefined) return [];
    const sold = sale.items.find(({ of, id }) => of === 'line' && id === part.lineId);
    const { free } = stockOf(desk, line);
    return [{ ...part, extras: extrasOf(part.number), priceMinor: sold?.priceMinor ?? null, free }];
  });
}
