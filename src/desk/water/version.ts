import type { Business, Tub } from '../../domain/index.ts';
import type { Desk } from '../desk.ts';

const texts = new WeakMap<Business, string>();

/** The settings as text, once for each time they were read. */
function settingsText(business: Business): string {
  const text = texts.get(business) ?? JSON.stringify(business);
  texts.set(business, text);
  return text;
}

/** Changes whenever what was concluded from a tub's water may be out of date: its facts, its volume, or the settings. */
export const waterVersion = (desk: Desk, business: Business, tub: Tub): string =>
  `${desk.store.freshness('water', tub.id)} ${tub.netLitres} ${settingsText(business)}`;
