import { type ForecastGap, type LocalDay, wantedForecasts } from '../domain/index.ts';
import { press } from './acts.ts';
import { areaRef } from './areaRef.ts';
import { type Button, button, type Card, type Form } from './card.ts';
import { type Judged, nextGoodLine, reasonLines, verdictWords, wantsForecast } from './dispatchReasons.ts';
import { undoButton } from './undoButton.ts';
import { dateWords, loggedWords, tempWords, type Voice } from './voice.ts';

interface ForecastKept {
  readonly weather: { readonly day: LocalDay; readonly area: string; readonly lowC: number; readonly highC: number };
  /** The parcel that it tells of, if one is open. */
  readonly sale: number | null;
  readonly judged: Judged;
  /** What is to be looked at next. */
  readonly next: ForecastGap | null;
  readonly entryId: number;
}

/** A forecast that was kept, and what the parcel's day looks like with it. */
export function weatherCard(voice: Voice, by: string, { weather, sale, judged, next, entryId }: ForecastKept): Card {
  const { day, area, lowC, highC } = weather;
  const isSaid = (reason: Judged['reasons'][number]): boolean =>
    (reason.kind === 'too-cold' || reason.kind === 'too-hot') && reason.day === day && reason.area === area;
  return {
    title: `${sale === null ? area : `Parcel ${sale}`}: ${verdictWords(voice, judged)}`,
    why: [
      `Low ${tempWords(voice, lowC)}, high ${tempWords(voice, highC)} at ${area} on ${dateWords(voice, day)}`,
      ...reasonLines(
        voice,
        judged.reasons.filter((reason) => !isSaid(reason)),
      ),
      ...boundLine(voice, judged),
      ...nextGoodLine(voice, judged),
      loggedWords(voice, by),
    ],
    controls: [
      [
        ...(next === null ? [] : gapButtons(voice, next)),
        button('Packing list', press('pack-day', { day: judged.day })),
        undoButton(entryId),
      ],
    ],
  };
}

/** The bound that the air is outside of. */
const boundLine = (voice: Voice, { reasons }: Judged): string[] => [
  ...new Set(
    reasons.flatMap((reason) => {
      if (reason.kind === 'too-cold') return [`Your bound for the low is ${tempWords(voice, reason.minTempC)}`];
      return reason.kind === 'too-hot' ? [`Your bound for the high is ${tempWords(voice, reason.maxTempC)}`] : [];
    }),
  ),
];

/** Opens the form for the next place and day that nobody has looked at; none for the far end that nobody has named. */
function gapButtons(voice: Voice, { area, day }: ForecastGap): Button[] {
  if (area === null) return [];
  const label = `Enter ${onButton(area)} ${dateWords(voice, day)}`;
  return [button(label, press('weather-at', { day, area: areaRef(area) }), 'main')];
}

/** A place's name, short enough for a button. */
const onButton = (area: string): string => (area.length > 16 ? `${area.slice(0, 15)}…` : area);

/**
 * What settles the air on a parcel's way where that is asked for: the form for its forecast, or for where it goes. Sale 0: for the place that
 * parcels leave from.
 */
export function airButtons(sale: number, judged: Judged): Button[] {
  if (wantsForecast(judged)) return [button('Enter forecast', press('weather-form', { sale, day: judged.day }))];
  const asksWhere = judged.good && sale !== 0 && judged.reasons.some(({ kind }) => kind === 'forecast-gaps');
  return asksWhere ? [button(`Where does ${sale} go?`, press('sale-area-form', { sale }))] : [];
}

/** Opens the form for the first place and day that a day's verdict lacks, else for the place that parcels leave from. */
export function enterButton(judged: Judged, tone: 'main' | 'plain'): Button {
  const [first] = wantedForecasts(judged.reasons);
  const pressed =
    first === undefined
      ? press('weather-form', { sale: 0, day: judged.day })
      : press('weather-at', { day: first.day, area: areaRef(first.area) });
  return button('Enter forecast', pressed, tone);
}

/** A form for the forecast of a place on a day. */
export const weatherForm = (voice: Voice, day: LocalDay, area: string): Form => ({
  title: `Forecast for ${dateWords(voice, day)}`,
  press: press('weather-send', { day }),
  fields: [
    { id: 'area', label: 'Place', lines: 'one', value: area, required: true },
    { id: 'low', label: `Low of the night, ${unitOf(voice)}`, lines: 'one', required: true },
    { id: 'high', label: `High of the day, ${unitOf(voice)}`, lines: 'one', required: true },
  ],
});

const unitOf = (voice: Voice): string => (voice.units === 'us' ? '°F' : '°C');
