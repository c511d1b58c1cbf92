import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fittedLines } from '../../src/reply/postLines.ts';

fc.configureGlobal({ seed: 20270413 });

describe('the lines of a post', () => {
  const blocks = [
    { lines: ['act', 'watch', 'test'], least: 1 },
    { lines: ['p1', 'p2', 'p3'], least: 1, more: (left: number) => `${left} more` },
    { lines: ['wren', 'alder'] },
    { lines: ['done wren', 'done alder'], joins: true },
  ];

  it('stay as they are where there is room', () => {
    expect(fittedLines(blocks, 10)).toHaveLength(10);
  });

  it('are joined first, then cut from the end, and say what is left out', () => {
    expect(fittedLines(blocks, 9).slice(-1)).toEqual(['done wren · done alder']);
    expect(fittedLines(blocks, 8)).toEqual([
      ...['act', 'watch', 'test', 'p1', 'p2 · 1 more', 'wren', 'alder', 'done wren · done alder'],
    ]);
    expect(fittedLines(blocks, 5)).toEqual(['act', 'p1 · 2 more', 'wren', 'alder', 'done wren · done alder']);
  });

  it('are never more than there is room for', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ lines: fc.array(fc.string(), { maxLength: 9 }), least: fc.nat(3), joins: fc.boolean() }), {
          maxLength: 9,
        }),
        fc.integer({ min: 1, max: 12 }),
        (some, most) => {
          expect(fittedLines(some, most).length).toBeLessThanOrEqual(most);
        },
      ),
    );
  });
});
