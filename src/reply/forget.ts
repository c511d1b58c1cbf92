import type { LocalDay } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { cut } from './cut.ts';
import { counted, dateWords, listWords, someWords, type Voice } from './voice.ts';

interface Counts {
  readonly sales: number;
  readonly photos: number;
  readonly trackings: number;
  readonly notes: number;
  readonly waiting: number;
  readonly searchesNotes: boolean;
}

interface ToForget extends Counts {
  readonly buyerId: number;
  readonly buyer: string;
  readonly onTheWay: readonly number[];
}

interface Forgotten extends Counts {
  readonly photosLeft: readonly string[];
  readonly isCompact: boolean;
  readonly backupsFreeOn: LocalDay;
}

/** Asks before a buyer's data are erased: what goes, what stays. */
export function forgetAskCard(found: ToForget): Card {
  const { buyer, buyerId, onTheWay } = found;
  return {
    title: `Forget ${cut(buyer)} for good?`,
    why: [
      countsLine(found),
      'Erased: name, area, region, notes, photos, tracking, drafts',
      'Kept: amounts, animals and days, so that the books add up',
      ...(onTheWay.length === 0
        ? []
        : [`On its way: parcel ${listWords(onTheWay.map(String))}; its tracking goes too`]),
      ...(found.searchesNotes ? [] : ['Notes are not searched: the name is short or means something else']),
      'It cannot be undone',
    ],
    controls: [
      [
        button(cut(`Forget ${buyer}`), press('buyer-forget', { buyer: buyerId }), 'danger'),
        button('Leave it', press('leave-it', {})),
      ],
    ],
  };
}

/** What was erased, and what the bot cannot reach. The name is not said again. */
export function forgottenCard(voice: Voice, done: Forgotten): Card {
  return {
    title: 'The buyer is forgotten, the books are kept',
    why: [
      countsLine(done),
      ...(done.photosLeft.length === 0 ? [] : [`Not deleted, do it by hand: photos/${someWords(done.photosLeft, 3)}`]),
      ...(done.isCompact ? [] : ['The old text lingers in the file while another program reads it']),
      ...(done.searchesNotes ? [] : ['Notes were not searched for the name']),
      `Nightly backups hold it until ${dateWords(voice, done.backupsFreeOn)}`,
      'Your own backups and replaced databases do until you delete them',
      'A restored one brings it back: forget it again then',
    ],
    next: "Delete this channel's messages that name them; the bot can't",
  };
}

export const forgottenAlreadyCard: Card = {
  title: 'That buyer is already forgotten',
  why: ['Nothing more was erased'],
};

function countsLine({ sales, photos, trackings, notes, waiting }: Counts): string {
  return [
    counted(sales, 'sale'),
    ...(photos > 0 ? [counted(photos, 'photo')] : []),
    ...(trackings > 0 ? [counted(trackings, 'tracking number')] : []),
    ...(notes > 0 ? [counted(notes, 'note')] : []),
    ...(waiting > 0 ? [counted(waiting, 'wait', 'waits')] : []),
  ].join(' · ');
}
