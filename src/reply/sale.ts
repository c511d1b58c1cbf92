import type { LocalDay, Sale, SaleState } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card, type Form } from './card.ts';
import { type CarriedGoods, carriedLines } from './carriedWords.ts';
import { airLine, type Judged, nextGoodLine, reasonLines, verdictWords } from './dispatchReasons.ts';
import { orderLine, stateLine } from './saleWords.ts';
import { dateWords, listWords, loggedWords, momentWords, moneyWords, type Voice } from './voice.ts';
import { airButtons } from './weather.ts';

export interface SaleBooked {
  readonly sale: Sale;
  readonly judged: Judged | null;
  readonly proposed: boolean;
  readonly unpriced: readonly string[];
  readonly carried: CarriedGoods;
  readonly waited: readonly { readonly line: string; readonly left: number }[];
}

/** A sale just booked: the verdict on its day in the first line. */
export function saleAddedCard(voice: Voice, by: string, booked: SaleBooked): Card {
  const { sale, judged, proposed, unpriced, waited, carried } = booked;
  return {
    title: saleTitle(voice, sale, judged),
    why: [
      ...(proposed && judged !== null ? [proposedLine(voice, judged)] : judgedLines(voice, judged)),
      `${orderLine(sale)}, ${stateLine(voice, sale, 'kept')}`,
      ...(unpriced.length > 0 ? [`No price set for ${listWords(unpriced)}`] : []),
      ...(judged === null ? [] : nextGoodLine(voice, judged)),
      ...carriedLines(voice, carried),
      ...waited.map(waitedLine),
      loggedWords(voice, by),
    ],
    controls: [openSaleControls(voice, sale, 'kept', judged)],
  };
}

/** The buyer's place on the waiting list, after the sale took what it could off it. */
const waitedLine = ({ line, left }: SaleBooked['waited'][number]): string =>
  left === 0 ? `Off the waiting list for ${line}` : `Still waiting for ${left} ${line}`;

/** A day that nobody asked for: "The next good day; forecast not looked at". */
function proposedLine(voice: Voice, { reasons }: Judged): string {
  const [reason] = reasonLines(voice, reasons, 1);
  return reason === undefined
    ? 'The next good day'
    : `The next good day; ${reason.charAt(0).toLowerCase()}${reason.slice(1)}`;
}

/** The verdict on a sale's day. */
export const saleTitle = (voice: Voice, sale: Sale, judged: Judged | null): string =>
  `Sale ${sale.id}: ${judged === null ? 'no day is open within a year' : verdictWords(voice, judged)}`;

/** Why its day is judged so. */
export const judgedLines = (voice: Voice, judged: Judged | null): string[] =>
  judged === null
    ? ['Closed windows leave no day open: see /season']
    : [...reasonLines(voice, judged.reasons), ...airLine(voice, judged)];

/** The likely acts on a sale that is not sent. */
export function openSaleControls(voice: Voice, sale: Sale, state: SaleState, judged: Judged | null): Button[] {
  const controls: Button[] = [];
  if (judged !== null && !judged.good && judged.next !== null) controls.push(moveButton(voice, sale.id, judged.next));
  if (state !== 'paid') controls.push(paidButton(sale, controls.length === 0));
  else if (judged?.day === voice.today) controls.push(button('Sent', press('parcel-sent', { sale: sale.id }), 'main'));
  else if (judged?.good) controls.push(button('Packing list', press('pack-day', { day: judged.day }), 'main'));
  if (judged !== null) controls.push(...airButtons(sale.id, judged));
  controls.push(button('Cancel sale', press('sale-cancel-form', { sale: sale.id }), 'danger'));
  return controls;
}

/** Moves a sale to the next good day. */
export const moveButton = (voice: Voice, sale: number, day: LocalDay, withNumber = false): Button =>
  button(`Move ${withNumber ? `${sale} ` : ''}to ${dateWords(voice, day)}`, press('sale-move', { sale, day }), 'main');

export const paidButton = (sale: Sale, likely = false): Button =>
  button('Paid', press('sale-paid', { sale: sale.id }), likely ? 'main' : 'plain');

export interface SaleShown {
  readonly sale: Sale;
  readonly state: SaleState;
  readonly judged: Judged | null;
  readonly carried: CarriedGoods;
  /** "A1: 12 jade", for a parcel that left. */
  readonly caught: readonly string[];
}

/** A sale as it stands. */
export function saleCard(voice: Voice, { sale, state, judged, carried, caught }: SaleShown): Card {
  const open = state === 'kept' || state === 'lapsed' || state === 'paid';
  return {
    title: open ? saleTitle(voice, sale, judged) : `Sale ${sale.id}: ${state}`,
    why: [
      ...(open ? judgedLines(voice, judged) : []),
      orderLine(sale),
      stateLine(voice, sale, state),
      ...(open && judged !== null ? nextGoodLine(voice, judged) : []),
      ...(open ? carriedLines(voice, carried) : []),
      ...(caught.length > 0 ? [`Caught: ${caught.join(', ')}`] : []),
      ...(sale.tracking === null ? [] : [`Tracking ${sale.tracking}`]),
      ...arrivalLines(voice, sale),
      `${sale.outlet === null ? '' : `${sale.outlet} · `}logged by ${sale.by} ${momentWords(voice, sale.addedAt)}`,
    ],
    controls: [controlsFor(voice, sale, state, judged)].filter((row) => row.length > 0),
  };
}

function arrivalLines(voice: Voice, { arrival, claim }: Sale): string[] {
  const settled = claim?.settled ?? null;
  return [
    ...(arrival === null ? [] : [`${arrival.dead} dead on arrival, logged by ${arrival.by}`]),
    ...(claim === null
      ? []
      : [`Claim over ${claim.dead} dead, ${settled === null ? 'not answered yet' : answeredWords(voice, settled)}`]),
  ];
}

function answeredWords(
  voice: Voice,
  settled: { readonly how: string; readonly amountMinor: number; readonly by: string },
): string {
  const amount = settled.how === 'refund' ? ` of ${moneyWords(voice, settled.amountMinor)}` : '';
  return `answered with ${settled.how}${amount} by ${settled.by}`;
}

function controlsFor(voice: Voice, sale: Sale, state: SaleState, judged: Judged | null): Button[] {
  if (state === 'sent') return [button('Arrived', press('arrived-form', { sale: sale.id }), 'main')];
  if (state === 'arrived') {
    return sale.claim !== null && sale.claim.settled === null
      ? [button('Answer the claim', press('claim-show', { sale: sale.id }), 'main')]
      : [];
  }
  return state === 'cancelled' ? [] : openSaleControls(voice, sale, state, judged);
}

export const cancelForm = (sale: number): Form => ({
  title: `Cancel sale ${sale}`,
  press: press('sale-cancel-send', { sale }),
  fields: [{ id: 'reason', label: 'Reason', hint: 'not paid, changed their mind', lines: 'one', required: true }],
});

/** Where a parcel goes, where nobody has said so: the weather there counts too. */
export const areaForm = (sale: number): Form => ({
  title: `Where sale ${sale} goes`,
  press: press('sale-area-send', { sale }),
  fields: [{ id: 'area', label: 'Place', hint: 'A town is enough', lines: 'one', required: true }],
});

export const amountForm = (voice: Voice, sale: number): Form => ({
  title: `Sale ${sale} paid`,
  press: press('sale-amount-send', { sale }),
  fields: [{ id: 'amount', label: `Amount, ${voice.currency}; no price was set`, lines: 'one', required: true }],
});
