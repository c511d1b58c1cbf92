import fc from 'fast-check';
import type { Completion, OptionSpec } from '../../commands/command.ts';
import { people } from './world.ts';

/** Names that the business knows, as people type them: right, in another case, by number, nearly right, or no longer in use. */
const known: Readonly<Record<Completion, readonly string[]>> = {
  tub: ['A1', 'a2', 'tub A3', 'A4', 'A5', 'A6', 'B1', 'b2', 'Große Wanne Nº 1', 'C1', 'A', 'A11'],
  line: ['jade', 'SNOW', '**r_e_d** <@1>', 'jad'],
  sale: ['1', '2', '#3', '5', 'heron', 'Plover', 'Ærø @everyone', '0', '999', 'her'],
  chore: ['Water change', 'Readings', 'Feed', 'clean the filters', 'Top up'],
  outlet: ['market', 'Markt'],
  goods: ['moss', 'MOSS', 'mos'],
  entry: ['1', '5', '#9', '20', '0', '-1', '1.5', '999999'],
  rack: ['A', 'b', 'Küche', 'Z'],
  area: ['Utrecht', 'utrecht ', 'Ærø'],
  buyer: ['heron', 'plover', 'Ærø @everyone', 'a new one'],
  window: ['Winter', 'winter', 'Summer'],
};

const moments = [
  [
    'now',
    'today',
    'yesterday',
    'yesterday 18:00',
    '2 h ago',
    '3 days ago',
    'tomorrow',
    'next tuesday',
    'last Mon',
    'in 5 min',
  ],
  ['Mon', '15 Apr', '14 Apr', '19 Apr', '1 Dec', '12-01', '02-29', '29 Feb', '2027-04-14', '2027-04-14T09:00:00.000Z'],
  [
    '2027-02-30',
    '31/02/2027',
    '13.4.',
    '99:99',
    '25:00',
    '18:60',
    '0000-00-00',
    '10000-01-01',
    '-5 days',
    '1970-01-01',
  ],
  ['2027-03-28 02:30', '2026-10-25 02:30', '999999999 days ago', '1e9 h ago', '08:00', '8', 'none', 'never', '٣ أيام'],
].flat();

const orders = [
  ['20 jade', '10 snow + 2 moss', '2 tens jade, 5 snow', 'jade', '20', '0 jade', '-3 jade', '1.5 snow', '10 jad'],
  ['99999999999999999999 jade', '1e9 jade', ', , ,', '+', '10 jade 10 jade', '5 unicorns', '10 **r_e_d** <@1>'],
].flat();

const lists = [
  'mon-wed',
  'Mon, Tue',
  'weekdays',
  'Feed, Readings',
  'none',
  '0,5,10,20,40,80',
  '20,10',
  'a,b',
  'A1-A9',
  'B9-B1',
  'Z1-Z5000',
];

const places = [
  'Europe/Lisbon',
  'Mars/Olympus',
  'NL',
  'GB-ENG',
  'US-OR',
  'XX',
  'EUR',
  'JPY',
  'KWD',
  'QQQ',
  'until:now',
];

/** Texts that a program trips over: code, markup, mentions, other scripts and directions, marks that can't be seen, blanks. */
const odd = [
  [
    "'; DROP TABLE tub; --",
    '" OR 1=1',
    '%s%n',
    '$(7*7)',
    '{{7*7}}',
    '../../etc/passwd',
    '<script>',
    '\\',
    '\\\\`',
    '\u0000',
    '\n',
    '\t',
  ],
  [
    '@everyone',
    '<@100000000000000001>',
    '<#1>',
    '</help:1>',
    '**',
    '__',
    '```',
    '`',
    '||',
    '~~',
    '> ',
    '# ',
    '1. ',
    '- ',
    '[a](http://b.c)',
  ],
  [
    'مرحبا بالعالم',
    '\u202eevil\u202c',
    '\u200f',
    '\u200b',
    '\u2066',
    'ＡＢＣ',
    '１２',
    '½',
    '٣',
    'ß',
    'İ',
    'ǅ',
    '👩‍👩‍👧‍👦',
    '🦐🦐',
    '🇳🇱',
    'e\u0301',
    'Z͑ͫ̓ͪ̂ͫ',
  ],
  [
    '  ',
    ' ',
    '\u00a0',
    '\u3000',
    '0',
    '-0',
    '00',
    'nan',
    'Nan',
    '-infinity',
    'TRUE',
    '[]',
    '{}',
    '0x10',
    '1e5',
    '12,5',
    '1,200',
    '7.5.1',
  ],
  ['constructor', '__proto__', 'toString', 'hasOwnProperty', 'a:b:c', 'x#1', '%', '%E0%A4%A'],
].flat();

/** The service takes no half of a surrogate pair. */
const isWellFormed = (text: string): boolean => !/\p{Surrogate}/u.test(text);

const anyText = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...odd) },
  { weight: 2, arbitrary: fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 }) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', minLength: 1, maxLength: 40 }).filter(isWellFormed) },
  {
    weight: 2,
    arbitrary: fc
      .tuple(
        fc.constantFrom(...odd, 'a', 'A1 ', '10 jade, ', 'yesterday '),
        fc.constantFrom(31, 101, 301, 2001, 4000, 6000),
      )
      .map(([piece, length]) => piece.repeat(Math.ceil(length / piece.length)).slice(0, length))
      .filter(isWellFormed),
  },
  { weight: 2, arbitrary: fc.constantFrom(...moments, ...orders, ...lists, ...places, ...Object.values(known).flat()) },
);

/** The words that an option asks for, by its name. */
const wordsFor: Readonly<Record<string, readonly string[]>> = {
  when: moments,
  date: moments,
  until: [...moments, 'now'],
  on: moments,
  delivered: moments,
  'dispatch-on': moments,
  'close-from': moments,
  'close-to': moments,
  'away-from': moments,
  'away-to': moments,
  to: [...moments, ...known.tub],
  forward: ['3 days', '90 minutes', '1 year', '-1 day', 'soon'],
  items: orders,
  from: moments,
  month: ['2027-03', 'last month', 'april', 'Feb 2026', '2027', '2027-00', '0000', 'this year'],
  name: ['C2', 'D1-D3', 'A1', 'Feed', 'moss'],
  days: lists,
  never: lists,
  'kit-steps': lists,
  timezone: places,
  region: places,
  currency: places,
  morning: ['07:30', '24:00', '7', 'noon'],
  evening: ['18:00', '18.00', '6 pm'],
  'weekly-day': ['Sun', 'someday'],
  'weekly-time': ['17:00', '17'],
};

const textFor = ({
  name,
  complete,
}: Pick<OptionSpec, 'name'> & { readonly complete?: Completion }): fc.Arbitrary<string> => {
  const fitting = [...(complete === undefined ? [] : known[complete]), ...(wordsFor[name] ?? [])];
  return fitting.length === 0
    ? anyText
    : fc.oneof({ weight: 3, arbitrary: fc.constantFrom(...fitting) }, { weight: 1, arbitrary: anyText });
};

/** The service sends numbers between -2^53 and 2^53, and never what is no number. */
const most = 2 ** 53;
const wholeNumber = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 0, max: 40 }) },
  { weight: 1, arbitrary: fc.constantFrom(-1, 100, 101, 365, 1000, 99_999, 2 ** 31, 2 ** 32 + 1, most, -most) },
);
const anyNumber = fc.oneof(
  { weight: 4, arbitrary: wholeNumber },
  { weight: 3, arbitrary: fc.integer({ min: 0, max: 1000 }).map((tenths) => tenths / 10) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(-0, 0.001, 1e-7, 5e-324, 0.1 + 0.2, -0.5, 72, 98.6, 1e12 + 0.5, 12.345678901234),
  },
);

const attachment = fc.record({
  id: fc.constant('800000000000000001'),
  name: fc.constantFrom('a.jpg', '../a.jpg', 'ä.exe'),
  url: fc.constant('http://127.0.0.1:1/a.jpg'),
  sizeBytes: fc.constantFrom(0, 1000, 50_000_000),
  contentType: fc.constantFrom('image/jpeg', 'text/plain', null),
});

const { wren, alder, kestrel, robin } = people;
const member = fc.constantFrom(wren, alder, kestrel, robin).map(({ userId, name, bot }) => ({ userId, name, bot }));

/** What the service may send as the value of an option. */
export function valueFor(option: OptionSpec): fc.Arbitrary<unknown> {
  if (option.choices !== undefined) return fc.constantFrom(...option.choices);
  switch (option.type) {
    case 'text':
      return textFor(option);
    case 'number':
      return anyNumber;
    case 'integer':
      return wholeNumber;
    case 'boolean':
      return fc.boolean();
    case 'member':
      return member;
    case 'attachment':
      return attachment;
    case 'channel':
      return fc.constantFrom('700000000000000001', '700000000000000002');
  }
}

/** What may be typed into a field of a form, also as a completion. */
export const typedText = fc.oneof(
  anyText,
  fc.constantFrom('', '12', '7,5', '20 jade', 'heron', 'yesterday', 'A1 no3 20 t 21.5', 'A1 no3 20\nB1 ph 7\nZ9 t 99'),
);
