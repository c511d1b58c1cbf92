import { dayOf, fahrenheitOf, type Reading, type WaterValueName } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { counted, dateWords, figure, listWords, type Voice } from './voice.ts';
import { type WaterPast, waterChart } from './waterChart.ts';

/** The columns of the history with the decimals that each is read to. */
const columns: readonly (readonly [WaterValueName, string, number])[] = [
  ['nitrateMgL', 'NO3', 1],
  ['tempC', '°C', 1],
  ['ph', 'pH', 2],
  ['ammoniaMgL', 'NH4', 2],
  ['nitriteMgL', 'NO2', 2],
  ['tdsMgL', 'TDS', 0],
  ['ghDgh', 'GH', 1],
  ['khDkh', 'KH', 1],
];

const columnWidth = 4;
const mostColumns = 6;

/** The readings of a tub as a table, newest first, with the columns that hold anything, and a chart of the chosen value or of nitrate. */
export function readingHistoryCard(
  voice: Voice,
  history: WaterPast,
  days: number,
  only: WaterValueName | undefined,
): Card {
  const { tub } = history;
  const readings = history.readings.filter((reading) => only === undefined || reading[only] !== null).toReversed();
  if (readings.length === 0) {
    return {
      title: `${tub.name}: no readings in ${counted(days, 'day')}`,
      next: 'Log one with /reading log',
      controls: [[button('Log a reading', press('reading-form', { tub: tub.id }), 'main')]],
    };
  }
  const measured = columns.filter(
    ([name]) => (only === undefined || name === only) && readings.some((reading) => reading[name] !== null),
  );
  const dates = readings.slice(0, 25).map(({ at }) => dateWords(voice, dayOf(at, voice.zone)).slice(4));
  const dateWidth = Math.max(...dates.map(({ length }) => length)) + 1;
  const used = measured.slice(0, Math.min(mostColumns, Math.floor((38 - dateWidth) / (columnWidth + 1))));
  const left = measured.slice(used.length).map(([, title]) => title);
  const inFahrenheit = (name: WaterValueName): boolean => name === 'tempC' && voice.units === 'us';
  const cell = (reading: Reading, [name, , decimals]: (typeof columns)[number]): string => {
    const value = reading[name];
    const shown = value === null ? '·' : figure(inFahrenheit(name) ? fahrenheitOf(value) : value, decimals);
    return shown.padStart(columnWidth);
  };
  const headings = used.map(([name, title]) => (inFahrenheit(name) ? '°F' : title).padStart(columnWidth));
  const why = [
    ...(left.length > 0 ? [`Measured too: ${listWords(left)}; ask for one with what`] : []),
    ...(readings.length > 25 ? [`The newest 25 of ${readings.length}; give fewer days for the rest`] : []),
  ];
  const chart = waterChart(voice, history, only ?? 'nitrateMgL', only === undefined ? 3 : 2);
  return {
    title: `${tub.name}: ${counted(readings.length, 'reading')} in ${counted(days, 'day')}`,
    table: [
      `${' '.repeat(dateWidth)}${headings.join(' ')}`,
      ...dates.flatMap((date, row) => {
        const reading = readings[row];
        return reading === undefined
          ? []
          : [`${date.padEnd(dateWidth)}${used.map((column) => cell(reading, column)).join(' ')}`];
      }),
    ],
    ...(why.length > 0 && { why }),
    ...(chart !== null && { chart }),
    controls: [
      [
        button('Log a reading', press('reading-form', { tub: tub.id }), 'main'),
        button('Tub', press('tub-show', { tub: tub.id })),
      ],
    ],
  };
}
