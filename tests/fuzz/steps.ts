import fc from 'fast-check';
import { completions, type RawInput } from '../../commands/command.ts';
import { acts, demoCommands } from '../../commands/index.ts';
import { type ActName, type Press, pressOf } from '../../src/reply/index.ts';
import { typedText, valueFor } from './values.ts';
import type { people } from './world.ts';

type Who = keyof typeof people;

/** What can happen to the bot: a command, a press, a form that is sent, a completion, a post, or that time goes by. */
export type Step =
  | { readonly do: 'command'; readonly who: Who; readonly path: string; readonly options: RawInput }
  /** Presses one of the controls that were shown so far, or sends one of the forms. */
  | {
      readonly do: 'press';
      readonly who: Who;
      readonly pick: number;
      readonly choices: readonly number[];
      readonly texts: readonly (string | null)[];
    }
  /** Presses a control of an older message, whose arguments name what may be gone. */
  | {
      readonly do: 'stale press';
      readonly who: Who;
      readonly act: ActName;
      readonly numbers: readonly number[];
      readonly words: Readonly<Record<(typeof wordNames)[number], string>>;
      readonly values: readonly string[];
      readonly texts: readonly string[];
    }
  | { readonly do: 'complete'; readonly kind: (typeof completions)[number]; readonly typed: string }
  | { readonly do: 'post'; readonly job: (typeof posts)[number]; readonly lateMinutes: number }
  | { readonly do: 'wait'; readonly minutes: number };

export const posts = ['morning', 'evening', 'weekly', 'season'] as const;

/** Arguments of controls that are words. */
const wordNames = [
  'day',
  'place',
  'purpose',
  'from',
  'changed',
  'at',
  'rack',
  'how',
  'caught',
  'by',
  'mm',
  'hours',
  'airC',
  'bag',
  'step',
  'month',
  'area',
] as const;

const who: fc.Arbitrary<Who> = fc.oneof(
  { weight: 5, arbitrary: fc.constant('wren' as const) },
  { weight: 3, arbitrary: fc.constant('alder' as const) },
  { weight: 1, arbitrary: fc.constantFrom('rook' as const, 'kestrel' as const) },
);

const leaves = demoCommands.flatMap((command) => command.leaves);

const command: fc.Arbitrary<Step> = fc.constantFrom(...leaves).chain(({ path, options }) => {
  const values = Object.fromEntries(options.map((option) => [option.name, valueFor(option)]));
  const requiredKeys = options.filter(({ required }) => required === true).map(({ name }) => name);
  return fc.record({
    do: fc.constant('command' as const),
    who,
    path: fc.constant(path),
    options: fc.record(values, { requiredKeys }),
  });
});

const press: fc.Arbitrary<Step> = fc.record({
  do: fc.constant('press' as const),
  who,
  pick: fc.nat(),
  choices: fc.array(fc.nat(), { minLength: 1, maxLength: 3 }),
  texts: fc.array(fc.option(typedText, { freq: 2 }), { minLength: 5, maxLength: 5 }),
});

const day = fc.constantFrom('2027-04-13', '2027-04-14', '2027-05-01', '2026-01-01');

const stalePress: fc.Arbitrary<Step> = fc.record({
  do: fc.constant('stale press' as const),
  who,
  act: fc.constantFrom(...(Object.keys(acts) as ActName[])),
  numbers: fc.array(fc.oneof(fc.integer({ min: 0, max: 12 }), fc.constantFrom(1e9, -1, 0.5)), {
    minLength: 5,
    maxLength: 5,
  }),
  words: fc.record({
    day,
    place: fc.constantFrom('A', 'Küche', 'business'),
    purpose: fc.constantFrom('count', 'reading'),
    from: fc.constantFrom('ask', 'loss'),
    at: fc.constantFrom('r1', 't2', 'b', 't99', 'x', ''),
    step: fc.constantFrom('caught', 'counted', 'again', 'slip', 'whatever'),
    changed: fc.constantFrom('', 'a', 'egm', 'zz'),
    rack: fc.constantFrom('A', 'Küche', 'Z'),
    how: fc.constantFrom('refund', 'resend', 'decline'),
    caught: fc.constantFrom('', '79-28', '1-2-x-3-4-5'),
    by: fc.constantFrom('tub', 'way', 'whatever'),
    mm: fc.constantFrom('', '15', '-1'),
    hours: fc.constantFrom('', '48', 'long'),
    airC: fc.constantFrom('', '18', '99'),
    bag: fc.constantFrom('ordinary', 'breathable', ''),
    area: fc.constantFrom('Utrecht', 'home', 'Nowhere…', ''),
    month: fc.constantFrom('2027-04', '2026', '1999', '2027-13', ''),
  }),
  values: fc.array(fc.constantFrom('0', '1', '2', '999', '4.12', '7.'), {
    minLength: 1,
    maxLength: 3,
  }),
  texts: fc.array(typedText, { minLength: 5, maxLength: 5 }),
});

/** The press that a stale step stands for: an act with arguments of the kinds that it takes. */
export function stalePressOf({ act, numbers, words }: Extract<Step, { do: 'stale press' }>): Press {
  for (let arity = 0; arity <= numbers.length; arity += 1) {
    const probe = pressOf([act, ...numbers.slice(0, arity)].join(':'));
    if (probe === undefined) continue;
    const args = Object.entries(probe.args as Record<string, number | string>).map(([name, value]) => {
      if (typeof value === 'number') return [name, value];
      const word = wordNames.find((known) => known === name);
      if (word === undefined) throw new Error(`no words for the argument ${name} of ${act}`);
      return [name, words[word]];
    });
    return { act, args: Object.fromEntries(args) } as unknown as Press;
  }
  throw new Error(`the act ${act} takes more than ${numbers.length} arguments`);
}

/** Everything that may happen, in the proportion in which it is tried. */
export const anyStep: fc.Arbitrary<Step> = fc.oneof(
  { weight: 10, arbitrary: command },
  { weight: 8, arbitrary: press },
  { weight: 3, arbitrary: stalePress },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant('complete' as const),
      kind: fc.constantFrom(...completions),
      typed: typedText,
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant('post' as const),
      job: fc.constantFrom(...posts),
      lateMinutes: fc.constantFrom(0, 5, 400),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant('wait' as const), minutes: fc.constantFrom(1, 60, 1440, 4320, 40_000) }),
  },
);
