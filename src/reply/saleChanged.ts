import { isPaid, type Sale, type SaleState } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { type CarriedGoods, carriedLines } from './carriedWords.ts';
import { type Judged, nextGoodLine, reasonLines, verdictWords } from './dispatchReasons.ts';
import { judgedLines, moveButton, openSaleControls, paidButton, saleTitle } from './sale.ts';
import { itemsLine, openWords, orderLine, priceWords, stateLine } from './saleWords.ts';
import { undoButton } from './undoButton.ts';
import { dateWords, dayWords, loggedWords, moneyWords, type Voice } from './voice.ts';
import { listButton, type WaitingList, waitingLines } from './waiting.ts';

export interface SaleEdited {
  readonly before: Sale;
  readonly sale: Sale;
  readonly judged: Judged | null;
  readonly reservedAnew: boolean;
  readonly carried: CarriedGoods;
  readonly entryId: number;
}

/** A sale that was changed: what it was and what it is. */
export function saleEditedCard(voice: Voice, by: string, edited: SaleEdited, state: SaleState): Card {
  const { before, sale, judged, reservedAnew, carried, entryId } = edited;
  const price = (shown: Sale): string => priceWords(voice, shown);
  const day = (shown: Sale): string =>
    shown.dispatchOn === null ? 'without a day' : dateWords(voice, shown.dispatchOn);
  return {
    title: saleTitle(voice, sale, judged),
    why: [
      ...judgedLines(voice, judged),
      ...(day(before) === day(sale) ? [] : [`Moved from ${day(before)}`]),
      ...(itemsLine(before) === itemsLine(sale) ? [] : [`Was: ${itemsLine(before)}, ${price(before)}`]),
      `${orderLine(sale)}, ${stateLine(voice, sale, state)}`,
      ...(reservedAnew ? ['It had lapsed; its animals were free and are reserved anew'] : []),
      ...(judged === null ? [] : nextGoodLine(voice, judged)),
      ...carriedLines(voice, carried),
      loggedWords(voice, by),
    ],
    controls: [[...openSaleControls(voice, sale, state, judged), undoButton(entryId)]],
  };
}

/** A sale that was given up. */
export function saleCancelledCard(
  voice: Voice,
  by: string,
  {
    sale,
    paidMinor,
    waiting,
    entryId,
  }: {
    readonly sale: Sale;
    readonly paidMinor: number;
    readonly waiting: readonly WaitingList[];
    readonly entryId: number;
  },
): Card {
  return {
    title: `Sale ${sale.id}: cancelled`,
    why: [
      `${itemsLine(sale)} free again`,
      ...waitingLines(waiting),
      `Reason: ${sale.cancelled?.reason ?? ''}`,
      loggedWords(voice, by),
    ],
    ...(paidMinor > 0 && { next: `Pay back ${moneyWords(voice, paidMinor)}` }),
    controls: [
      [
        ...waiting.slice(0, 1).map(({ line }) => listButton(line)),
        button('Stock', press('stock', {})),
        undoButton(entryId),
      ],
    ],
  };
}

export interface PaymentLogged {
  readonly sale: Sale;
  readonly amountMinor: number;
  readonly openMinor: number | null;
  readonly wasLapsed: boolean;
  readonly entryId: number;
}

/** A payment: what came, and whether it is all. What is paid in part stays reserved and is not packed. */
export function paidCard(voice: Voice, by: string, paid: PaymentLogged, judged: Judged | null): Card {
  const { sale, amountMinor, openMinor, wasLapsed, entryId } = paid;
  const difference = openMinor === null ? 0 : amountMinor - openMinor;
  const bad = judged !== null && !judged.good;
  return {
    title: `Sale ${sale.id}: paid ${moneyWords(voice, amountMinor)}${difference < 0 ? `, ${moneyWords(voice, -difference)} open` : ''}`,
    why: [
      ...(difference > 0 ? [`${moneyWords(voice, difference)} more than agreed`] : []),
      ...(openMinor === null ? ['No price was set to compare it with'] : []),
      ...(wasLapsed ? ['It had lapsed; its animals were still free and are reserved again'] : []),
      ...(isPaid(sale) ? [] : ['Kept, as part of it is paid; packed once the rest is in']),
      orderLine(sale),
      ...(bad ? [`But ${verdictWords(voice, judged)}`, ...reasonLines(voice, judged.reasons, 1)] : []),
      loggedWords(voice, by),
    ],
    next: nextAfterPaying(voice, sale, bad),
    controls: [
      [
        ...(isPaid(sale) ? [] : [paidButton(sale, true)]),
        ...(bad && judged.next !== null
          ? [moveButton(voice, sale.id, judged.next)]
          : sale.dispatchOn === null || !isPaid(sale)
            ? []
            : [button('Packing list', press('pack-day', { day: sale.dispatchOn }), 'main')]),
        undoButton(entryId),
      ],
    ],
  };
}

function nextAfterPaying(voice: Voice, sale: Sale, isBadDay: boolean): string {
  if (!isPaid(sale)) return `Ask for the rest: ${openWords(voice, sale)}`;
  return isBadDay || sale.dispatchOn === null
    ? 'Move it to a good day'
    : `Pack it for ${dayWords(voice, sale.dispatchOn)}`;
}
