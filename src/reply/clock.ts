import type { Instant, Job, LocalDay } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { counted, dateWords, momentWords, someWords, type Voice } from './voice.ts';

const kinds: Record<Job, string> = {
  backup: 'Backup',
  morning: 'Morning',
  evening: 'Evening',
  weekly: 'Week',
  season: 'Season',
};

/** Where the demonstration's clock stands, and what was posted on the way. */
export function clockCard(
  voice: Voice,
  moved: { readonly from: Instant; readonly posts: readonly { readonly job: Job; readonly day: LocalDay }[] } | null,
): Card {
  const title = `It is ${dateWords(voice, voice.today)} ${momentWords(voice, voice.now)}`;
  const controls = [[button('Today', press('rota-today', {}), 'main')]];
  if (moved === null)
    return {
      title,
      why: ['The clock of this demonstration only goes forward'],
      next: 'Put it on with forward: "3 days" or to: a date',
      controls,
    };
  const names = moved.posts.map(({ job, day }) => `${kinds[job]} ${dateWords(voice, day)}`);
  return {
    title,
    why: [
      `It was ${momentWords(voice, moved.from)}`,
      names.length === 0
        ? 'Nothing was posted on the way'
        : `${counted(names.length, 'post')} on the way: ${someWords(names, 8)}`,
    ],
    controls,
  };
}
