import type { Chore, ChoreGround } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { everyWords, minutesWords } from './rotaWords.ts';
import { undoButton } from './undoButton.ts';
import { counted, loggedWords, type Voice } from './voice.ts';

interface ChoreSet {
  readonly chore: Chore;
  readonly owner: string | null;
  readonly entryId: number;
}

export const choreAddedCard = (voice: Voice, by: string, set: ChoreSet): Card => choreCard(voice, by, set, 'added');

export const choreEditedCard = (voice: Voice, by: string, set: ChoreSet): Card =>
  choreCard(voice, by, set, set.chore.off ? 'off' : 'changed');

function choreCard(voice: Voice, by: string, { chore, owner, entryId }: ChoreSet, what: string): Card {
  return {
    title: `Chore ${chore.name}: ${what}`,
    why: [
      chore.off
        ? 'It is no longer on the rota'
        : `${termsOf(chore)} · ${owner === null ? 'shared' : `always ${owner}`}`,
      ...(chore.act === 'change' && !chore.off ? ['The change policy goes by the same interval'] : []),
      loggedWords(voice, by),
    ],
    controls: [[button('Rota', press('rota-today', {})), undoButton(entryId)]],
  };
}

/** "every 2 days, 6 min a rack", "warm months, every 42 days, 10 min a tub", "when eggs are due to hatch, 2 min a tub". */
function termsOf({ everyDays, minutes, scope, season, dependsOn }: Chore): string {
  const half = { all: [], cool: ['cool months'], warm: ['warm months'] }[season];
  const each = scope === 'business' ? '' : ` a ${scope}`;
  return [...half, comesWords(dependsOn, everyWords(everyDays)), `${minutesWords(minutes)}${each}`].join(', ');
}

/** When a chore comes, by what it hangs on. */
function comesWords(ground: ChoreGround, every: string): string {
  switch (ground) {
    case 'interval':
      return every;
    case 'warmth':
      return `${every}, longer in cool water`;
    case 'young':
      return `${every} where young are`;
    case 'hatch':
      return 'when eggs are due to hatch';
    case 'hold':
      return 'on the last day of a hold';
    case 'claim':
      return `${every} while a claim may come`;
    case 'trouble':
      return "in the days after a tub's trouble";
  }
}

/** Every chore, those that are on first. */
export function choreListCard(chores: readonly { readonly chore: Chore; readonly owner: string | null }[]): Card {
  const on = chores.filter(({ chore }) => !chore.off);
  const off = chores.filter(({ chore }) => chore.off);
  if (chores.length === 0) {
    return { title: 'No chores yet', next: 'Add the first tub, and a set to start with comes along; or /chore add' };
  }
  return {
    title: `${counted(on.length, 'chore')} on the rota`,
    why: [
      ...on.map(({ chore, owner }) => `${chore.name}: ${termsOf(chore)}${owner === null ? '' : ` · ${owner}`}`),
      ...(off.length > 0 ? [`Off: ${off.map(({ chore }) => chore.name).join(', ')}`] : []),
    ],
    next: 'Change one with /chore edit',
    controls: [[button('Rota', press('rota-today', {}))]],
  };
}
