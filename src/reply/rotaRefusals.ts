import type { Refusal } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { momentWords, someWords, type Voice } from './voice.ts';

type RotaRefusal = Extract<Refusal, { kind: 'done-already' | 'nothing-due' | 'which-target' }>;

export function rotaRefusal(voice: Voice, refusal: RotaRefusal): Card {
  switch (refusal.kind) {
    case 'done-already':
      return {
        title: `Already done: ${refusal.what}`,
        why: [`logged by ${refusal.by} ${momentWords(voice, refusal.at)}`],
        controls: [[button('Rota', press('rota-today', {}))]],
      };
    case 'nothing-due':
      return {
        title: `Nothing to do: ${refusal.chore}`,
        why: ['None of it is due'],
        controls: [[button('The week', press('rota-week', {}))]],
      };
    case 'which-target':
      return {
        title: `Not logged: which tub for ${refusal.chore}?`,
        why: [`Due: ${someWords(refusal.targets, 12)}`],
        next: 'Give the tub as well',
      };
  }
}
