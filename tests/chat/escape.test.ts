import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { escaped } from '../../src/chat/escape.ts';

describe('a typed text in a card', () => {
  it.each([
    ['blue_dream', 'blue\\_dream'],
    ['**A1**', '\\*\\*A1\\*\\*'],
    ['<@1234> @everyone', '\\<\\@1234> \\@everyone'],
    ['[here](https://example.org)', '\\[here\\](https://example.org)'],
    ['# heading', '\\# heading'],
    ['> quoted', '\\> quoted'],
    ['- item', '\\- item'],
    ['1. first', '1\\. first'],
    ['1.5 L', '1.5 L'],
    ['A1\n# B2', 'A1 # B2'],
    ['`code`', '\\`code\\`'],
    ['back\\slash', 'back\\\\slash'],
    ['turned\u202eround', 'turned round'],
    ['kestrel (green)', 'kestrel (green)'],
  ])('%j becomes %j', (typed, safe) => {
    expect(escaped(typed)).toBe(safe);
  });

  it('stays on one line, and every mark that formats or mentions is escaped', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'aA1 *_~`|<>@[]#-\\\n\r\t.') }), (typed) => {
        const safe = escaped(typed);
        expect(safe).not.toMatch(/[\n\r]/);
        expect(safe.replace(/\\[^a-zA-Z0-9\s]/g, '')).not.toMatch(/[\\*_~`|<@[\]]/);
      }),
    );
  });
});
