import type { ChartData, LineForecast } from '../domain/index.ts';
import { rangeOfAnimals } from './animals.ts';
import { dateWords, someWords, type Voice } from './voice.ts';

/** A phone shows so many rows without scrolling far. */
const mostRows = 14;
/** Characters of a row. */
const rowRoom = 38;

/** The months ahead as rows: saleable with its 80 % range, and the share of futures in which all could be sent. */
export function forecastTable(voice: Voice, { days, shut, weekly }: LineForecast): string[] {
  const every = Math.ceil((days.length - 1) / (mostRows - 1));
  const shown = days.filter((_, nth) => nth === days.length - 1 || nth % Math.max(1, every) === 0);
  const isSold = weekly > 0;
  return [
    `${'day'.padEnd(15)} ${'saleable'.padEnd(15)}${isSold ? ' enough' : ''}`.trimEnd(),
    ...shown.map(({ day, saleable, allSent }) => {
      const enough = isSold ? ` ${Math.floor(allSent * 100)} %` : '';
      return `${dateWords(voice, day).padEnd(15)} ${rangeOfAnimals(saleable).padEnd(15)}${enough}`.trimEnd();
    }),
    ...(shut.length > 0
      ? [
          `not on sale, left out: ${someWords(
            shut.map(({ name }) => name),
            2,
          )}`,
        ]
      : []),
  ].map((row) => (row.length > rowRoom ? `${row.slice(0, rowRoom - 1)}…` : row));
}

/** The months ahead with their 80 % band, the breeders, and where it closes and opens. */
export function forecastChart(voice: Voice, { line, days, tubs, closing }: LineForecast): ChartData {
  const last = days.at(-1)?.day ?? voice.today;
  const edges = closing === null ? [] : [closing.closesOn, closing.opensOn];
  const marks = edges.filter((day) => day > voice.today && day <= last);
  const breeders = line.holdBack * tubs;
  return {
    title: `${line.name} ahead, 80 % band`,
    unit: 'animals',
    zone: voice.zone,
    fromZero: true,
    series: [
      {
        name: 'saleable',
        kind: 'band',
        points: days.map(({ day, saleable: { low, median, high } }) => ({ at: day, value: median, low, high })),
      },
    ],
    ...(breeders > 0 && { limit: { value: breeders, label: `breeders ${breeders}` } }),
    ...(marks.length > 0 && {
      marks: {
        label: marks.length === 2 ? 'closes, opens' : marks[0] === closing?.opensOn ? 'opens' : 'closes',
        at: marks,
      },
    }),
  };
}
