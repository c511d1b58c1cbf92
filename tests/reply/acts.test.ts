import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { acts as handlers } from '../../commands/index.ts';
import { type ActName, customIdOf, type Press, postKeyOf, pressOf } from '../../src/reply/index.ts';

fc.configureGlobal({ seed: 20270413 });

/** Arguments of every act, found by asking for its custom id: an argument that is missing shows as "undefined". */
const shapes = (Object.keys(handlers) as ActName[]).map((act) => {
  const seen: string[] = [];
  const args = new Proxy(
    {},
    {
      get: (_, name) => {
        seen.push(String(name));
        return 0;
      },
    },
  );
  customIdOf({ act, args } as unknown as Press);
  const isNumber = (name: string): boolean => {
    const values = Object.fromEntries(seen.map((each) => [each, each === name ? 'x' : '1']));
    return pressOf([act, ...seen.map((each) => values[each])].join(':')) === undefined;
  };
  return { act, fields: seen.map((name) => ({ name, isNumber: isNumber(name) })) };
});

/** Ids of rows, and litres: what the numbers in controls are. */
const number = fc.oneof(
  fc.nat(10_000_000),
  fc.integer({ min: 1, max: 20_000 }).map((n) => n / 10),
);
/** Rack names, purposes and days, with the signs that the custom id itself is made of. */
const text = fc.oneof(
  fc.string({ maxLength: 9 }),
  fc.constantFrom('a:b', '100 %', 'B#2', 'rack / left', 'Küche', '2027-04-13', ''),
);

describe('a control', () => {
  it('comes back from its custom id as it was, for every act', () => {
    expect(shapes.length).toBeGreaterThan(20);
    for (const { act, fields } of shapes) {
      const args = fc.record(Object.fromEntries(fields.map(({ name, isNumber }) => [name, isNumber ? number : text])), {
        noNullPrototype: true,
      });
      fc.assert(
        fc.property(args, (given) => {
          const pressed = { act, args: given } as unknown as Press;
          const id = customIdOf(pressed);
          expect(id.length).toBeLessThanOrEqual(100);
          expect(pressOf(id)).toEqual(pressed);
        }),
        { numRuns: 30 },
      );
    }
  });

  it('carries the key of a post, and is read the same with it', () => {
    const pressed: Press = { act: 'change-now', args: { tub: 12, litres: 7.5 } };
    const id = customIdOf(pressed, 'morning.2027-04-13');
    expect(id).toBe('change-now:12:7.5#morning.2027-04-13');
    expect(pressOf(id)).toEqual(pressed);
    expect(postKeyOf(id)).toBe('morning.2027-04-13');
    expect(postKeyOf('change-now:12:7.5')).toBeUndefined();
  });

  it('is none of ours when the name, the number of arguments or a number is not', () => {
    for (const id of [
      '',
      'nothing',
      'toString',
      'change-now:12',
      'change-now:12:7.5:9',
      'change-now:x:7',
      'change-now::7',
    ]) {
      expect(pressOf(id)).toBeUndefined();
    }
  });

  it('breaks rather than send an id that the service refuses', () => {
    expect(() => customIdOf({ act: 'sheet-form', args: { rack: 'x'.repeat(100) } })).toThrow('longer than 100');
  });
});
