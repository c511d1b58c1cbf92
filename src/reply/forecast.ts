import type { Line, LineForecast, LocalDay, Range } from '../domain/index.ts';
import { press } from './acts.ts';
import { rangeOfAnimals } from './animals.ts';
import { button, type Card } from './card.ts';
import { forecastChart, forecastTable } from './forecastMonths.ts';
import { stepButtons } from './setup.ts';
import { counted, dateWords, dayWords, figure, type Voice } from './voice.ts';

/** What is ahead of a line: the answer for the couple's plan, a sentence for each question, the months as rows and drawn. */
export function forecastCard(voice: Voice, forecast: LineForecast): Card {
  const { uncounted, sharpest, line } = forecast;
  const toCount = uncounted[0] ?? sharpest;
  return {
    title: titleOf(voice, forecast),
    why: [
      toldLine(voice, forecast),
      bearsLine(voice, forecast),
      breedersLine(forecast),
      denseLine(voice, forecast),
      oneMoreLine(voice, forecast),
    ],
    table: forecastTable(voice, forecast),
    ...nextOf(forecast),
    controls: [
      [
        button('New sale', press('sale-form', {}), 'main'),
        toCount === null
          ? button('Count a tub', press('pick-tub', { purpose: 'count' }))
          : button(`Count ${toCount.name}`, press('count-form', { tub: toCount.id })),
        button('Stock', press('stock-line', { line: line.id })),
      ],
    ],
    chart: forecastChart(voice, forecast),
  };
}

/** Characters of a title that is read at a glance. */
const titleRoom = 46;

/** "orange: 12 a week", the line's name cut where the rest leaves it no room. */
function titled(name: string, rest: string): string {
  const room = titleRoom - rest.length;
  return `${name.length > room ? `${name.slice(0, Math.max(1, room - 1))}…` : name}${rest}`;
}

function titleOf(voice: Voice, { line, told, bears, isAsked, weekly }: LineForecast): string {
  const until = `until ${dateWords(voice, bears.until)}`;
  if (bears.isOpen && isAsked && weekly > 0 && bears.weekly !== null) {
    return weekly <= bears.weekly
      ? titled(line.name, ` bears ${weeklyWords(weekly)} ${until}`)
      : titled(line.name, `: ${weeklyWords(weekly)} is too many, bears ${bears.weekly}`);
  }
  if (!bears.isOpen || told.on < bears.until) {
    return titled(line.name, `: ${rangeOfAnimals(told.saleable)} on ${dateWords(voice, told.on)}`);
  }
  if (bears.weekly === null) return titled(line.name, `: sell none ${until}`);
  return titled(line.name, `: ${bears.weekly === 0 ? 'under 1' : bears.weekly} a week ${until}`);
}

const weeklyWords = (weekly: number): string => `${figure(weekly)} a week`;

/** Characters of a line that a phone shows in two rows. */
const lineRoom = 72;

/** The stock on the day that is answered for. */
function toldLine(voice: Voice, { told, weekly, isAsked }: LineForecast): string {
  const line = (sold: string): string =>
    `${sold}${isAsked ? '' : ', as now'}: ${rangeOfAnimals(told.saleable)} on ${dateWords(voice, told.on)}`;
  if (weekly === 0) return line('Nothing sold');
  const full = line(`At ${weeklyWords(weekly)} with extras`);
  return full.length <= lineRoom ? full : line(`At ${weeklyWords(weekly)}`);
}

/** What the line bears, and what that leaves. */
function bearsLine(voice: Voice, { line, bears, days, told }: LineForecast): string {
  const left = `${line.holdBack} breeders a tub and ${bears.stock} ${bears.isMonth ? '(a month)' : '(at least)'}`;
  if (!bears.isOpen) return `No open day until ${dateWords(voice, bears.until)}: nothing can be sent before`;
  if (bears.weekly !== null) {
    const weekly = bears.weekly === 0 ? 'Under 1' : bears.weekly;
    return told.on < bears.until
      ? `${weekly} a week until ${dateWords(voice, bears.until)}, 90 % sure, leave ${line.holdBack} a tub and ${bears.stock}`
      : `${weekly} a week leave ${left}, 90 % sure`;
  }
  const [today] = days;
  return today !== undefined && today.allSent < 0.9
    ? 'What is promised already is not surely there without the breeders'
    : `Even unsold, ${left} are not sure by then`;
}

function breedersLine({ breeders: { females, males, wanted, effectiveNow } }: LineForecast): string {
  return `Hold ${females} females + ${males} males for ${wanted} effective; now ${rangeOfAnimals(whole(effectiveNow))}`;
}

const whole = ({ low, median, high }: Range): Range => ({
  low: Math.round(low),
  median: Math.round(median),
  high: Math.round(high),
});

/** When a tub is over-dense if nothing is taken from it. */
function denseLine(voice: Voice, { overDense, denseUntil, from }: LineForecast): string {
  if (overDense === null) return `No tub gets over 5 a litre by ${dateWords(voice, denseUntil)}`;
  const { tub, likely, earliest, perLitre } = overDense;
  const name = shortName(tub.name);
  if (likely === from) return `${name} is over-dense now: ${figure(perLitre)} a litre, 5 is the most`;
  const from10 = earliest === null || earliest === likely ? '' : ` (one in ten: ${dayWords(voice, earliest)})`;
  return likely === null
    ? `${name} may get over 5 a litre, one in ten from ${dayOrNow(voice, earliest ?? denseUntil)}`
    : `${name} gets over 5 a litre by ${dateWords(voice, likely)}${from10}`;
}

const dayOrNow = (voice: Voice, day: LocalDay): string =>
  day === voice.today ? 'today on' : `${dateWords(voice, day)} on`;

/** What another tub would add; the tub that it is like goes unsaid where there is no room. */
function oneMoreLine(voice: Voice, { oneMore, told }: LineForecast): string {
  if (oneMore === null) return 'One more tub: none has ten animals to spare to start it';
  const { like, number, adds } = oneMore;
  const more = adds.median > 0 ? `${signedRange(adds)} more` : 'nothing more';
  const rest = `, ${number} moved: ${more} by ${dateWords(voice, told.on)}`;
  const full = `One more tub like ${shortName(like.name)}${rest}`;
  return full.length <= lineRoom ? full : `One more tub${rest}`;
}

/** "38 (5–80)"; where it may be a loss "12 (−5 to 30)". */
const signedRange = (range: Range): string =>
  range.low < 0 ? `${range.median} (−${-range.low} to ${range.high})` : rangeOfAnimals(range);

/** Tubs' names may be 24 characters long: too long beside figures. */
const shortName = (name: string): string => (name.length > 10 ? `${name.slice(0, 9)}…` : name);

/** The one step that helps most: a count that is missing, fewer sales, more breeders held back, a count that would tell. */
function nextOf(forecast: LineForecast): { next?: string } {
  const { uncounted, sharpest, bears, isAsked, weekly, breeders, tubs, line, days } = forecast;
  const [first, ...more] = uncounted;
  if (first !== undefined) {
    return {
      next: `Count ${first.name}: ${more.length === 0 ? 'it is' : `${counted(uncounted.length, 'tub')} are`} left out`,
    };
  }
  const isTooMuch = bears.isOpen && (bears.weekly === null || weekly > bears.weekly + (isAsked ? 0 : 1));
  if (isTooMuch) {
    const less = bears.weekly === null ? 'Sell none for now' : 'Sell less';
    return { next: sharpest === null ? less : `${less}, or count ${sharpest.name} in full to be surer` };
  }
  const perTub = Math.ceil((breeders.females + breeders.males) / tubs);
  if (perTub > line.holdBack && perTub * tubs <= (days[0]?.saleable.low ?? 0)) {
    return { next: `Hold back ${perTub} a tub, not ${line.holdBack}, with /setup line` };
  }
  return sharpest === null ? {} : { next: `Count ${sharpest.name} in full, it would narrow this most` };
}

/** The line to look ahead for: of more than 25 the first 25, the others are typed. */
export function pickLineCard(lines: readonly Line[]): Card {
  if (lines.length === 0) return { title: 'No lines yet', next: 'Add one first', controls: [stepButtons.line] };
  return {
    title: 'Forecast of which line?',
    ...(lines.length > 25 && { next: 'Type /forecast for the others' }),
    controls: [
      [
        {
          kind: 'select',
          placeholder: 'Line',
          press: press('forecast-picked', {}),
          options: lines.slice(0, 25).map(({ id, name }) => ({ label: name, value: String(id) })),
        },
      ],
    ],
  };
}
