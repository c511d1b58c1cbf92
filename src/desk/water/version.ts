import type { Tub } from '../../domain/index.ts';
import type { Desk } from '../desk.ts';

/**
 * Changes whenever what was concluded from a tub's water may be out of date: its facts, its volume, or the settings it rests on.
 * @param settings those settings
 */
export const waterVersion = (desk: Desk, tub: Tub, settings: readonly unknown[]): string =>
  `${desk.store.freshness('water', tub.id)} ${tub.netLitres} ${settings.join(' ')}`;
