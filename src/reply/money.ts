import {
  addDays,
  type CostKind,
  costKinds,
  type LineMoney,
  type MoneyReport,
  type MoneyTotals,
  type MoneyYear,
  type Payback,
  type Period,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card, type ControlRow } from './card.ts';
import { moneyButton } from './cost.ts';
import { decimalWords, monthWords, yearWords } from './moneyWords.ts';
import { counted, figure, moneyWords, type Voice } from './voice.ts';

/** A month's money: what came, what went, what each animal, litre and hour brought, and every line. */
export function moneyCard(voice: Voice, report: MoneyReport, year: string): Card {
  const { period, totals } = report;
  return {
    title: headline(voice, monthWords(voice, period), report),
    why: reportLines(voice, report),
    table: lineTable(voice, report),
    ...nextStep(totals),
    controls: [
      [
        moneyButton(addDays(period.first, -1).slice(0, 7), monthWords(voice, monthBefore(period)), true),
        ...(period.last < voice.today ? [moneyButton(monthAfter(period).slice(0, 7), nextWords(voice, period))] : []),
        moneyButton(year, `Year ${year}`),
        button('Log a cost', press('cost-form', {})),
      ],
    ],
  };
}

/** A year's money, month by month. */
export function moneyYearCard(voice: Voice, { year, months }: MoneyYear): Card {
  const { period, totals } = year;
  const before = String(Number(period.first.slice(0, 4)) - 1);
  return {
    title: headline(voice, yearWords(period), year),
    why: reportLines(voice, year),
    table: monthTable(voice, months),
    ...nextStep(totals),
    controls: yearControls(voice, months, before),
  };
}

const headline = (voice: Voice, when: string, { isSoFar, totals }: MoneyReport): string =>
  `${when}${isSoFar ? ' so far' : ''}: ${moneyWords(voice, totals.netMinor)} net`;

const nextStep = ({ takingsMinor, costsMinor }: MoneyTotals): Pick<Card, 'next'> =>
  takingsMinor > 0 && costsMinor === 0 ? { next: 'Log what was spent with /cost' } : {};

const monthBefore = ({ first }: Period): Period => ({ first: addDays(first, -1), last: first });
const monthAfter = ({ last }: Period) => addDays(last, 1);
const nextWords = (voice: Voice, period: Period): string =>
  monthWords(voice, { first: monthAfter(period), last: monthAfter(period) });

function reportLines(voice: Voice, report: MoneyReport): string[] {
  const { totals, rest, guessed, payback } = report;
  const isShared = rest.some(({ of, costsMinor }) => of === 'shared' && costsMinor > 0);
  if (totals.takingsMinor === 0 && totals.costsMinor === 0 && totals.refundsMinor === 0 && totals.feesMinor === 0) {
    return ['No money came or went'];
  }
  return [
    ...inLines(voice, totals),
    ...outLines(voice, totals),
    ...costLines(voice, totals),
    ...yieldLines(voice, report),
    ...litreLines(voice, report),
    ...(isShared ? ['Lines are told before the costs that they share'] : []),
    ...paybackLines(voice, payback),
    ...(guessed > 0 ? [`${counted(guessed, 'older sale')}: prices not kept then, so shared by number`] : []),
  ];
}

/** "€118.00 (animals €100.00, postage €18.00)", "€25.00 (animals)" where one part is all of it. */
function withParts(voice: Voice, totalMinor: number, parts: readonly (readonly [string, number])[]): string {
  const all = moneyWords(voice, totalMinor);
  const some = parts.filter(([, minor]) => minor !== 0);
  if (some.length === 0) return all;
  const told = some.map(([name, minor]) => (some.length === 1 ? name : `${name} ${moneyWords(voice, minor)}`));
  return `${all} (${told.join(', ')})`;
}

const inLines = (voice: Voice, { takingsMinor, animalsMinor, goodsMinor, postageMinor }: MoneyTotals): string[] => [
  `In ${withParts(voice, takingsMinor, [
    ['animals', animalsMinor],
    ['goods', goodsMinor],
    ['postage', postageMinor],
  ])}`,
];

function outLines(voice: Voice, { feesMinor, refundsMinor, costsMinor }: MoneyTotals): string[] {
  const parts = [
    ['fees', feesMinor],
    ['refunds', refundsMinor],
    ['costs', costsMinor],
  ] as const;
  return [`Out ${withParts(voice, feesMinor + refundsMinor + costsMinor, parts)}`];
}

/** Kinds told in one line. */
const kindsALine = 3;

/** What was spent by kind, the most first. */
function costLines(voice: Voice, { costsByKind }: MoneyTotals): string[] {
  const kinds: CostKind[] = costKinds
    .filter((kind) => costsByKind[kind] !== 0)
    .sort((a, b) => costsByKind[b] - costsByKind[a]);
  const told = kinds.map((kind) => `${kind} ${moneyWords(voice, costsByKind[kind])}`);
  const lines = [told.slice(0, kindsALine), told.slice(kindsALine)].filter((line) => line.length > 0);
  return lines.map((line, index) => `${index === 0 ? 'Costs' : 'Also'}: ${line.join(', ')}`);
}

function yieldLines(voice: Voice, report: MoneyReport): string[] {
  const { sold, perTenMinor, perLitreMinor, perHourMinor, choreHours } = report;
  const told = [
    ...(perTenMinor === null ? [] : [`${moneyWords(voice, perTenMinor)} per ten`]),
    ...(perLitreMinor === null ? [] : [`${moneyWords(voice, perLitreMinor)} a tub-litre`]),
    ...(perHourMinor === null ? [] : [`${moneyWords(voice, perHourMinor)} a chore hour`]),
  ];
  const work = [
    ...(sold === 0 ? [] : [`${counted(sold, 'animal')} sold`]),
    ...(choreHours === 0 ? [] : [`${figure(choreHours)} h of chores by their minutes`]),
  ];
  return [...(told.length === 0 ? [] : [`Net ${told.join(' · ')}`]), ...(work.length === 0 ? [] : [work.join(' · ')])];
}

/** Lines told in one sentence. */
const linesTold = 3;

/** What a litre of each line nets, where there are several. */
function litreLines(voice: Voice, { lines }: MoneyReport): string[] {
  const told = lines
    .flatMap(({ name, perLitreMinor }) =>
      perLitreMinor === null ? [] : [`${clipped(name, nameInRow)} ${moneyWords(voice, perLitreMinor)}`],
    )
    .slice(0, linesTold);
  return told.length < 2 ? [] : [`A tub-litre: ${told.join(', ')}`];
}

/** Characters of a line's name in a sentence. */
const mostName = 16;

function paybackLines(voice: Voice, payback: Payback | null): string[] {
  if (payback === null) return [];
  const { netPerMonthMinor, costMinor, months } = payback;
  const line = clipped(payback.line, mostName);
  const nets = `${moneyWords(voice, netPerMonthMinor)} a month`;
  if (costMinor === null) return [`One more ${line} tub nets ${nets}; what one cost is not logged`];
  return [
    months === null
      ? `Payback of one more ${line} tub: never, it nets ${nets}`
      : `Payback of one more ${line} tub: ${counted(months, 'month')}, ${moneyWords(voice, costMinor)} at ${nets}`,
  ];
}

/** Characters of a line's name in a row. */
const nameInRow = 8;
/** Characters of a row on a phone: name, animals, taken, net, net per ten. */
const columns = [nameInRow, 5, 9, 9, 7] as const;

function rowOf(cells: readonly string[]): string {
  return cells
    .map((cell, index) => {
      const width = columns[index] ?? 0;
      return index === 0 ? clipped(cell, width).padEnd(width) : cell.padStart(width);
    })
    .join('')
    .slice(0, 38);
}

const clipped = (text: string, most: number): string => (text.length > most ? `${text.slice(0, most - 1)}…` : text);

/** Lines that fit beside the words of a card. */
const mostLines = 12;

/** Every line, and what is no line's; the nets add up to the net of all. */
function lineTable(voice: Voice, { lines, rest }: MoneyReport): string[] {
  const decimal = (minor: number): string => decimalWords(voice.currency, minor);
  const others = rest.filter(({ takingsMinor, netMinor }) => takingsMinor !== 0 || netMinor !== 0);
  if (lines.length === 0 && others.length === 0) return [];
  const more = lines.slice(mostLines);
  const sum = (of: (line: LineMoney) => number): number => more.reduce((total, line) => total + of(line), 0);
  return [
    rowOf(['line', 'sold', 'taken', 'net', '/ten']),
    ...lines.slice(0, mostLines).map(({ name, sold, takingsMinor, netMinor, perTenMinor }) => {
      const perTen = perTenMinor === null ? '' : decimal(perTenMinor);
      return rowOf([name, String(sold), decimal(takingsMinor), decimal(netMinor), perTen]);
    }),
    ...(more.length === 0
      ? []
      : [
          rowOf([
            ...[`${more.length} more`, String(sum(({ sold }) => sold))],
            ...[sum(({ takingsMinor }) => takingsMinor), sum(({ netMinor }) => netMinor)].map(decimal),
          ]),
        ]),
    ...others.map(({ of, takingsMinor, netMinor }) =>
      rowOf([of, '', takingsMinor === 0 ? '' : decimal(takingsMinor), decimal(netMinor)]),
    ),
  ];
}

function monthTable(voice: Voice, months: MoneyYear['months']): string[] {
  const decimal = (minor: number): string => decimalWords(voice.currency, minor);
  const row = (month: string, cells: readonly string[]): string =>
    `${month.padEnd(8)}${cells.map((cell) => cell.padStart(10)).join('')}`.slice(0, 38);
  return [
    row('month', ['in', 'out', 'net']),
    ...months.map(({ period, totals }) => {
      const outMinor = totals.feesMinor + totals.refundsMinor + totals.costsMinor;
      const cells = [totals.takingsMinor, outMinor, totals.netMinor].map(decimal);
      return row(shortMonth(period), cells);
    }),
  ];
}

/** "Oct 26". */
const shortMonth = ({ first }: Period): string => {
  const names = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
  return `${names[Number(first.slice(5, 7)) - 1]} ${first.slice(2, 4)}`;
};

/** The service takes 25 choices; a year has 13 months at most, cut at both ends. */
function yearControls(voice: Voice, months: MoneyYear['months'], before: string): ControlRow[] {
  const options = [...new Map(months.map(({ period }) => [period.first.slice(0, 7), period]))]
    .reverse()
    .map(([value, period]) => ({ value, label: monthWords(voice, period) }));
  return [
    [moneyButton(before, `Year ${before}`), button('Log a cost', press('cost-form', {}))],
    ...(options.length === 0
      ? []
      : [[{ kind: 'select', placeholder: 'Show a month', press: press('money-pick', {}), options }] as const]),
  ];
}
