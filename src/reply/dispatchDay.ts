import { isPartPaid, type LineBags, type LocalDay, type PackingState, type Sale } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card, type ControlRow } from './card.ts';
import { type CarriedGoods, carriedTogether } from './carriedWords.ts';
import { airLine, type Judged, nextGoodLine, reasonLines, wantsForecast } from './dispatchReasons.ts';
import { parcelBagsWords } from './packWords.ts';
import { itemLine, openWords } from './saleWords.ts';
import { counted, dateWords, listWords, type Voice } from './voice.ts';
import { airButtons, enterButton } from './weather.ts';

/** The verdict on a day for a place, with the reasons and the next good day. */
export function checkCard(voice: Voice, judged: Judged, place: string | null): Card {
  const date = dateWords(voice, judged.day);
  const verdict = { 'may go': `${date}: may go`, ask: `${date}: ask`, no: `${date}: no` }[judged.verdict];
  return {
    title: `${verdict}${place === null ? '' : `, to ${place}`}`,
    why: [
      ...reasonLines(voice, judged.reasons, 3),
      ...airLine(voice, judged),
      ...(judged.verdict === 'no'
        ? []
        : [`Delivered ${judged.deliveryDays.map((day) => dateWords(voice, day)).join(' or ')}`]),
      ...nextGoodLine(voice, judged),
    ],
    ...(wantsForecast(judged) && { next: 'Look at the forecast and enter it' }),
    controls: [checkControls(voice, judged)],
  };
}

/** A good day leads to its packing list and its forecast, a bad one to the packing list of the next that is good. */
function checkControls(voice: Voice, judged: Judged): Button[] {
  const packing = (day: LocalDay, tone: 'main' | 'plain'): Button => packingButton(voice, day, tone);
  if (judged.good) {
    const waits = wantsForecast(judged);
    return [enterButton(judged, waits ? 'main' : 'plain'), packing(judged.day, waits ? 'plain' : 'main')];
  }
  return judged.next === null ? [] : [packing(judged.next, 'main')];
}

const packingButton = (voice: Voice, day: LocalDay, tone: 'main' | 'plain'): Button =>
  button(`Packing list ${dateWords(voice, day)}`, press('pack-day', { day }), tone);

interface NamedCatch {
  readonly tub: string;
  readonly line: string;
  readonly number: number;
}

export const catchWords = ({ tub, line, number }: NamedCatch): string => `${tub}: ${number} ${line}`;

export interface ParcelToPack {
  readonly sale: Sale;
  readonly judged: Judged;
  readonly catches: readonly NamedCatch[];
  readonly short: readonly { readonly what: string; readonly asked: number; readonly there: number }[];
  readonly bags: readonly LineBags[];
  readonly carried: CarriedGoods;
  readonly packed: PackingState;
  readonly overdue: boolean;
}

export interface PackingList {
  readonly day: LocalDay;
  readonly parcels: readonly ParcelToPack[];
  readonly catches: readonly (NamedCatch & { readonly sales: readonly number[] })[];
  readonly unpaid: readonly Sale[];
  readonly sent: readonly Sale[];
  readonly judged: Judged;
}

/** Parcels, or unpaid sales, that have a button each; more are in a list. */
const mostButtons = 5;
/** Beside the button that opens the first one to pack. */
const mostSent = mostButtons - 1;

/** The packing list of a day: what to net, tub by tub, then parcel by parcel; unpaid ones stand under it. */
export function packingCard(voice: Voice, list: PackingList): Card {
  const { day, parcels, catches, unpaid, sent, judged } = list;
  const left = sent.length === 0 ? '' : `, ${sent.length} sent`;
  return {
    title: `${dateWords(voice, day)}: ${parcels.length === 0 ? 'nothing to pack' : `${counted(parcels.length, 'parcel')} to pack`}${left}`,
    why: [
      ...(parcels.length > 0 ? dayLines(voice, parcels) : []),
      ...parcels.flatMap((parcel) => parcelLines(parcel)),
      ...carriedTogether(voice, parcels),
      ...bagLines(voice, parcels),
      ...unpaid.map(
        (sale) =>
          `${isPartPaid(sale) ? 'Part paid' : 'Not paid'}, sale ${sale.id}: ${sale.items.map(itemLine).join(', ')}, ${openWords(voice, sale)}`,
      ),
      ...(parcels.length === 0 && !judged.good ? reasonLines(voice, judged.reasons, 2) : []),
    ],
    ...(catches.length > 0 && { table: ['Catch   line       no. for', ...catches.map(catchRow)] }),
    ...(parcels.length > 0 && { next: 'Count into bags, one line a bag, and let the bags stand' }),
    controls: packingControls(voice, list),
  };
}

function catchRow({ tub, line, number, sales }: PackingList['catches'][number]): string {
  return `${tub.padEnd(7)} ${line.slice(0, 10).padEnd(10)} ${String(number).padStart(3)} ${sales.join(' ')}`.slice(
    0,
    38,
  );
}

/** Parcels whose way is judged alike are told of together: the whole day in one line where nothing is against it. */
function dayLines(voice: Voice, parcels: readonly ParcelToPack[]): string[] {
  const bad = parcels.filter(({ judged }) => judged.verdict !== 'may go');
  if (bad.length === 0) return ['All may go'];
  const byReason = new Map<string, number[]>();
  for (const { sale, judged } of bad) {
    const [reason = ''] = reasonLines(voice, judged.reasons, 1);
    const words = `${judged.verdict}. ${reason}`;
    byReason.set(words, [...(byReason.get(words) ?? []), sale.id]);
  }
  return [...byReason].map(([words, sales]) => {
    if (sales.length === 1) return `Parcel ${sales[0]}: ${words}`;
    return sales.length === parcels.length ? `All ${words}` : `Parcels ${listWords(sales.map(String))}: ${words}`;
  });
}

function parcelLines({ sale, catches, short, packed, overdue }: ParcelToPack): string[] {
  const from = catches.length === 0 ? '' : ` (${catches.map(catchWords).join(', ')})`;
  const who = [sale.buyer, sale.area].filter((word) => word !== null).join(', ');
  return [
    `${sale.id}${who === '' ? '' : ` ${who}`}: ${sale.items.map(itemLine).join(', ')}${from}${overdue ? ', left over' : ''}${packedWords(packed)}`,
    ...short.map(({ what, asked, there }) => `${sale.id} short: ${what} ${asked} needed, ${there} to spare`),
  ];
}

/** ", packed", ", 2 of 6 checks"; nothing while none is done. */
function packedWords({ steps, done }: PackingState): string {
  if (done === 0) return '';
  return done === steps.length ? ', packed' : `, ${done} of ${steps.length} checks`;
}

/** What parcels are packed in; those packed alike share a line. */
function bagLines(voice: Voice, parcels: readonly ParcelToPack[]): string[] {
  const byBags = new Map<string, string[]>();
  for (const { sale, bags } of parcels) {
    const words = parcelBagsWords(voice, bags);
    if (words !== '') byBags.set(words, [...(byBags.get(words) ?? []), String(sale.id)]);
  }
  return [...byBags].map(([words, sales]) => `Bags for ${listWords(sales)}: ${words}`);
}

function packingControls(voice: Voice, { day, parcels, unpaid, judged }: PackingList): ControlRow[] {
  if (parcels.length === 0 && unpaid.length === 0) {
    const later = judged.good || judged.next === null ? [] : [packingButton(voice, judged.next, 'main')];
    return [[...later, button('Sales', press('sale-list', {}))]];
  }
  const rows: ControlRow[] = [];
  const start = button('Pack one by one', press('pack-start', { day }));
  if (parcels.length > mostSent) {
    const options = parcels.slice(0, 25).map(({ sale }) => choiceOf(sale));
    rows.push([
      { kind: 'select', placeholder: 'Sent', press: press('pack-sent-pick', { day }), options, max: options.length },
    ]);
  } else if (parcels.length > 0) {
    rows.push([
      ...parcels.map(({ sale }) => button(`Sent ${sale.id}`, press('pack-sent', { day, sale: sale.id }), 'main')),
      start,
    ]);
  }
  if (parcels.length > mostSent) {
    const some = unpaid.slice(0, mostSent);
    rows.push([start, ...some.map((sale) => button(`Paid ${sale.id}`, press('pack-paid', { day, sale: sale.id })))]);
  } else if (unpaid.length > mostButtons) {
    const options = unpaid.slice(0, 25).map(choiceOf);
    rows.push([{ kind: 'select', placeholder: 'Paid', press: press('pack-paid-pick', { day }), options }]);
  } else if (unpaid.length > 0) {
    rows.push(unpaid.map((sale) => button(`Paid ${sale.id}`, press('pack-paid', { day, sale: sale.id }))));
  }
  const [air = airButtons(0, judged)] = parcels
    .map((parcel) => airButtons(parcel.sale.id, parcel.judged))
    .filter((buttons) => buttons.length > 0);
  return air.length > 0 && rows.length < 2 ? [...rows, air] : rows;
}

const choiceOf = (sale: Sale) => ({
  label: `${sale.id}${sale.buyer === null ? '' : ` · ${sale.buyer}`}`,
  value: String(sale.id),
  description: sale.items.map(itemLine).join(', '),
});
