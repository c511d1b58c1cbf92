import { isPartPaid, openMinorOf, type Sale, type SaleItem, type SaleState } from '../domain/index.ts';
import { counted, momentWords, moneyWords, type Voice } from './voice.ts';

/** "20 jade + 4 extras", "2 moss". */
export const itemLine = (item: SaleItem): string =>
  `${item.number} ${item.name}${item.extras > 0 ? ` + ${counted(item.extras, 'extra')}` : ''}`;

export const itemsLine = ({ items }: Sale): string => items.map(itemLine).join(', ');

/** "20 jade + 4 extras for kestrel to Brook". */
export function orderLine(sale: Sale): string {
  const to = sale.area === null ? '' : ` to ${sale.area}`;
  return `${itemsLine(sale)}${sale.buyer === null ? '' : ` for ${sale.buyer}`}${to}`;
}

/** "€34.00 + €8.00 postage", or that no price is set. */
export function priceWords(voice: Voice, { priceMinor, postageMinor }: Sale): string {
  const postage = postageMinor > 0 ? ` + ${moneyWords(voice, postageMinor)} postage` : '';
  return priceMinor === null ? `price not set${postage}` : `${moneyWords(voice, priceMinor)}${postage}`;
}

/** Where a sale stands: kept until when, paid when, sent when. */
export function stateLine(voice: Voice, sale: Sale, state: SaleState): string {
  const price = priceWords(voice, sale);
  switch (state) {
    case 'kept':
      return isPartPaid(sale)
        ? `${price}; ${partPaidWords(voice, sale)}, so it is kept`
        : `${price}; kept until ${momentWords(voice, sale.keptUntil)} unless paid`;
    case 'lapsed':
      return `${price}; not paid by ${momentWords(voice, sale.keptUntil)}, so no longer reserved`;
    case 'paid':
      return `${price}; ${paidWords(voice, sale)}`;
    case 'sent':
      return `${price}; sent ${sale.sentAt === null ? '' : momentWords(voice, sale.sentAt)}`;
    case 'arrived':
      return `${price}; arrived ${sale.arrival === null ? '' : momentWords(voice, sale.arrival.deliveredAt)}`;
    case 'cancelled':
      return `${price}; cancelled: ${sale.cancelled?.reason ?? ''}`;
  }
}

/** "€9.00 paid, €1.00 open". */
export const partPaidWords = (voice: Voice, sale: Sale): string =>
  `${moneyWords(voice, sale.paidMinor)} paid, ${openWords(voice, sale)}`;

/** "€34.00 open". */
export function openWords(voice: Voice, sale: Sale): string {
  const openMinor = openMinorOf(sale);
  return openMinor === null ? 'price not set' : `${moneyWords(voice, Math.max(0, openMinor))} open`;
}

function paidWords(voice: Voice, { paidAt, paidMinor }: Sale): string {
  const when = paidAt === null ? '' : ` ${momentWords(voice, paidAt)}`;
  return paidMinor === 0 ? 'nothing to pay' : `paid ${moneyWords(voice, paidMinor)}${when}`;
}
