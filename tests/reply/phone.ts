import { expect } from 'vitest';
import type { Card } from '../../src/reply/index.ts';

/** Expects a card to fit a phone: a title for the notification, short lines, a narrow table, few rows of controls, no leaked figures. */
export function expectPhone(card: Card | undefined): void {
  if (card === undefined) throw new Error('an answer without a card');
  const rest = [...(card.why ?? []), ...(card.next === undefined ? [] : [card.next])];
  expect(card.title.length, card.title).toBeLessThanOrEqual(48);
  expect(card.title).not.toBe('');
  for (const line of rest) expect(line.length, line).toBeLessThanOrEqual(72);
  for (const row of card.table ?? []) expect(row.length, row).toBeLessThanOrEqual(38);
  expect((card.controls ?? []).length).toBeLessThanOrEqual(2);
  for (const text of [card.title, ...rest, ...(card.table ?? [])]) {
    expect(text).not.toMatch(/NaN|undefined|null|Infinity|\d\.\d{4}|\b0 days (?:late|ago)/);
    expect(text).not.toContain('!');
  }
  for (const row of card.controls ?? []) {
    for (const control of row) if (control.kind === 'button') expect(control.label.length).toBeLessThanOrEqual(34);
  }
}
