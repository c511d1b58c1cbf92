import type { Migration } from '../migration.ts';

/** The list price of a line or goods as it stood when a sale first held it; null where none was set then. */
const priceThen = (noun: 'line' | 'goods'): string => `
  UPDATE sale_item SET price_minor = (
    SELECT p.price_minor FROM ${noun}_version p
      JOIN entry pe ON pe.id = p.entry_id
      JOIN entry se ON se.id = (
        SELECT min(v.entry_id) FROM sale_version v JOIN sale_item i ON i.sale_version_id = v.id
        WHERE i.${noun}_id = sale_item.${noun}_id
          AND v.sale_id = (SELECT own.sale_id FROM sale_version own WHERE own.id = sale_item.sale_version_id))
    WHERE p.${noun}_id = sale_item.${noun}_id AND pe.id < se.id AND (pe.voided_at IS NULL OR pe.voided_at > se.logged_at)
    ORDER BY p.id DESC LIMIT 1)
  WHERE ${noun}_id IS NOT NULL;`;

/**
 * An item keeps the price at which it was sold. Items of older sales get what the price list said when the sale first held them, which
 * its versions still tell; where the list said nothing the price stays unknown.
 */
export const saleItemPrice: Migration = {
  version: 2,
  name: 'sale-item-price',
  sql: `
ALTER TABLE sale_item ADD COLUMN price_minor INTEGER CHECK (price_minor >= 0);
${priceThen('line')}
${priceThen('goods')}
`,
};
