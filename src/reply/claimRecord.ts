import {
  type AirBand,
  coldBelowC,
  type GuaranteeCost,
  type LocalDay,
  type ProportionInterval,
  type Survival,
  type SurvivalRecord,
  warmAboveC,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { counted, dateWords, moneyWords, someWords, tempWords, type Voice } from './voice.ts';

interface Named extends Survival {
  readonly name: string;
  readonly worse: boolean;
}

export interface ClaimRecord extends Omit<SurvivalRecord, 'byLine' | 'byTub'> {
  readonly from: LocalDay;
  readonly months: number;
  readonly byLine: readonly Named[];
  readonly byTub: readonly Named[];
  readonly cost: GuaranteeCost;
  readonly unheard: number;
}

/** What the record is told by: the line and the way, or the tub that they were caught from. */
export type RecordBy = 'way' | 'tub';

/** Rows of one kind that fit beside the words. */
const mostRows = 16;

/** How parcels arrived and what the guarantee cost; small numbers in plain words. */
export function claimRecordCard(voice: Voice, record: ClaimRecord, by: RecordBy): Card {
  const { all, months, from, unheard, cost } = record;
  if (all.sent === 0) {
    return {
      title: `${monthsWords(months)}: no arrivals logged`,
      why: [
        `Of parcels that left since ${dateWords(voice, from)}`,
        ...(unheard > 0 ? [unheardWords(unheard)] : []),
        ...costLines(voice, cost),
      ],
      next: 'Say how a parcel arrived with /dispatch arrived',
      ...(months < longMonths && { controls: [[recordButton(longMonths, 'way', monthsWords(longMonths))]] }),
    };
  }
  const groups = by === 'tub' ? { tub: record.byTub } : wayGroups(record);
  const worse = [
    ...[...record.byTub, ...record.byLine].filter((group) => group.worse).map(({ name }) => clipped(name, 10)),
    ...wayRows(record)
      .filter((group) => group.worse)
      .map(({ name }) => name),
  ];
  return {
    title: `${monthsWords(months)}: ${all.few ? `${all.alive} of ${all.sent}` : shareWords(all)} arrived alive`,
    why: [
      ...smallLines(record),
      ...(all.few ? [] : [`${all.alive} of ${all.sent} animals in ${counted(all.parcels, 'parcel')}`]),
      `Orders full: ${record.fullOrders.full} of ${record.fullOrders.parcels} (${rangeWords(record.fullOrders.interval)})`,
      ...(worse.length > 0 ? [`Worse than the rest, hardly by chance: ${someWords(worse, 3)}`] : []),
      ...costLines(voice, cost),
      ...(unheard > 0 ? [unheardWords(unheard)] : []),
      ...(record.shared > 0 ? [`Dead of ${counted(record.shared, 'mixed parcel')} are shared by number`] : []),
      ...(by === 'way' ? bandLine(voice, record) : []),
      'Ranges 95 %, as if each animal fared by itself',
    ],
    table: Object.entries(groups).flatMap(([head, rows], index) => tableOf(head, rows, index === 0)),
    ...(worse[0] !== undefined && { next: `Look at ${worse[0]} before you send more` }),
    controls: [
      [
        by === 'tub' ? recordButton(months, 'way', 'By line and way') : recordButton(months, 'tub', 'By tub'),
        months === shortMonths
          ? recordButton(longMonths, by, monthsWords(longMonths))
          : recordButton(shortMonths, by, monthsWords(shortMonths)),
      ],
    ],
  };
}

const shortMonths = 3;
const longMonths = 12;

export const recordButton = (months: number, by: RecordBy, label: string) =>
  button(label, press('claim-record', { months, by }));

const monthsWords = (months: number): string => counted(months, 'month');

/** "With so few sent, true survival could be as low as 91 %": of all, or of the line of which that is the lowest. */
function smallLines({ all, byLine }: ClaimRecord): string[] {
  if (all.few) return [`With so few sent, true survival could be as low as ${percentOf(all.interval.low)} %`];
  const [lowest] = byLine.filter(({ few }) => few).sort((a, b) => a.interval.low - b.interval.low);
  if (lowest === undefined) return [];
  const { name, interval } = lowest;
  return [`With so few ${clipped(name, 12)} sent, true survival could be as low as ${percentOf(interval.low)} %`];
}

function costLines(voice: Voice, cost: GuaranteeCost): string[] {
  const { parcels, perParcelMinor, refundsMinor, resendsMinor, extrasMinor, unpriced } = cost;
  if (perParcelMinor === null) return [];
  const money = (minor: number): string => moneyWords(voice, minor);
  return [
    `The guarantee cost ${money(perParcelMinor)} a parcel (${parcels} sent)`,
    `Refunds ${money(refundsMinor)} · resends ${money(resendsMinor)} · extras ${money(extrasMinor)}, at price`,
    ...(unpriced > 0 ? [`${counted(unpriced, 'animal')} without a price left out`] : []),
  ];
}

const unheardWords = (unheard: number): string => `${counted(unheard, 'parcel')} nobody has spoken of, not counted`;

/** Days on the way and the air there, as rows. */
function wayRows({ byTransitDays, byAir }: ClaimRecord): Named[] {
  return [
    ...byTransitDays.map((group) => ({ ...group, name: daysWords(group.key) })),
    ...byAir.map((group) => ({ ...group, name: airWords[group.key] })),
  ];
}

function wayGroups(record: ClaimRecord): Record<string, readonly Named[]> {
  const rows = wayRows(record);
  const days = record.byTransitDays.length;
  return { line: record.byLine, 'on the way': rows.slice(0, days), 'air there': rows.slice(days) };
}

const daysWords = (days: number | null): string =>
  days === null ? 'not known' : days === 0 ? 'same day' : counted(days, 'day');

const airWords: Record<AirBand, string> = {
  cold: 'cold air',
  mild: 'mild air',
  warm: 'warm air',
  unknown: 'not known',
};

/** What the names of the bands mean, where any parcel travelled in one that has bounds. */
const bandLine = (voice: Voice, { byAir }: ClaimRecord): string[] =>
  byAir.every(({ key }) => key === 'unknown')
    ? []
    : [`Cold: a night under ${tempWords(voice, coldBelowC)}; warm: a day over ${tempWords(voice, warmAboveC)}`];

/** Name, alive of sent, share, range: 38 characters. */
const rowOf = (name: string, of: string, share: string, range: string): string =>
  `${clipped(name, 10).padEnd(10)}${of.padStart(13)}${share.padStart(5)}${range.padStart(10)}`;

function tableOf(head: string, rows: readonly Named[], isFirst: boolean): string[] {
  const shown = rows.slice(0, mostRows);
  return [
    isFirst ? rowOf(head, 'alive/sent', '%', 'range %') : `${head}:`,
    ...shown.map(({ name, alive, sent, interval }) =>
      rowOf(name, `${alive}/${sent}`, percentOf(alive / sent), rangeWords(interval).replace(' %', '')),
    ),
    ...(rows.length > shown.length ? [`and ${rows.length - shown.length} more, all better`] : []),
  ];
}

const clipped = (text: string, most: number): string => (text.length > most ? `${text.slice(0, most - 1)}…` : text);

/** Whole per cent; one decimal near 100, which only all of them are. */
function percentOf(share: number): string {
  const percent = share * 100;
  if (percent > 99 && percent < 100) return String(Math.min(99.9, Math.round(percent * 10) / 10));
  return String(Math.round(percent));
}

const rangeWords = ({ low, high }: ProportionInterval): string => `${percentOf(low)}–${percentOf(high)} %`;

/** "98 % (97–99 %)". */
const shareWords = ({ alive, sent, interval }: Survival): string =>
  `${percentOf(alive / sent)} % (${rangeWords(interval)})`;
