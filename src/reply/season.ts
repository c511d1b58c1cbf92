import type { ClosedWindow, LocalDay } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card } from './card.ts';
import { type SaleInTrouble, troubleControls, troubleLines } from './saleList.ts';
import { undoButton } from './undoButton.ts';
import { counted, dateWords, loggedWords, monthDayWords, type Voice } from './voice.ts';

interface SeasonWindow {
  readonly window: ClosedWindow;
  readonly closesOn: LocalDay | null;
  readonly opensOn: LocalDay | null;
  readonly isClosedNow: boolean;
  readonly wholeYear: boolean;
}

interface SeasonAnswer {
  readonly done: 'listed' | 'added' | 'changed' | 'removed';
  readonly window: ClosedWindow | null;
  readonly windows: readonly SeasonWindow[];
  readonly inTrouble: readonly SaleInTrouble[];
  readonly entryId: number | null;
}

const spanWords = ({ from, to }: ClosedWindow): string => `${monthDayWords(from)} to ${monthDayWords(to)}`;

/** The closed windows, and what they mean for open sales. */
export function seasonCard(voice: Voice, by: string, answer: SeasonAnswer): Card {
  const { windows, inTrouble, entryId } = answer;
  return {
    title: titleOf(answer),
    why: [
      ...windows.map((each) => windowLine(voice, each)),
      ...leapLine(windows),
      ...troubleLines(voice, inTrouble),
      ...(entryId === null ? [] : [loggedWords(voice, by)]),
    ],
    ...nextOf(answer),
    controls: [...troubleControls(voice, inTrouble), ...ownControls(answer)].slice(0, 3),
  };
}

/** Undo what was set, and what the season means for the animals. */
function ownControls({ windows, inTrouble, entryId }: SeasonAnswer): Button[][] {
  const row = [
    ...(entryId === null ? [] : [undoButton(entryId)]),
    ...(windows.length > 0 && inTrouble.length === 0 ? [button('Forecast', press('forecast-pick', {}))] : []),
  ];
  return row.length === 0 ? [] : [row];
}

function titleOf({ done, window, windows, inTrouble }: SeasonAnswer): string {
  const touched = inTrouble.length === 0 ? '' : `, ${counted(inTrouble.length, 'sale')} to move`;
  if (done !== 'listed' && window !== null) {
    return done === 'removed'
      ? `${window.name}: removed${touched}`
      : `${window.name}: ${touched === '' ? 'closed ' : ''}${spanWords(window)}${touched}`;
  }
  if (windows.length === 0) return `Open all year${touched}`;
  const closed = windows.find(({ isClosedNow }) => isClosedNow);
  return `${closed === undefined ? 'Open now' : `Closed now: ${closed.window.name}`}${touched}`;
}

function windowLine(voice: Voice, { window, closesOn, opensOn, isClosedNow, wholeYear }: SeasonWindow): string {
  const span = `${window.name}: ${spanWords(window)}`;
  if (wholeYear) return `${span}, leaves no day open`;
  const edge = isClosedNow ? opensOn : closesOn;
  return edge === null ? span : `${span}, ${isClosedNow ? 'opens' : 'closes'} ${dateWords(voice, edge)}`;
}

/** "28 Feb" leaves the leap day open, which is seldom meant. */
const leapLine = (windows: readonly SeasonWindow[]): string[] =>
  windows.some(({ window }) => window.to === '02-28') ? ['29 Feb stays open: write 29 Feb to close it too'] : [];

function nextOf({ windows, inTrouble }: SeasonAnswer): { next?: string } {
  if (inTrouble.length > 0) return { next: 'Move the sales to good days, then tell the buyers' };
  return windows.length === 0 ? { next: 'Close a stretch with /season close-from:1 Dec close-to:29 Feb' } : {};
}
