import type { Instant, Job, LocalDay } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { counted, dateWords, listWords, momentWords, type Voice } from './voice.ts';

const kinds: Record<Job, string> = {
  backup: 'Backup',
  morning: 'Morning',
  evening: 'Evening',
  weekly: 'Week',
  season: 'Season',
};

interface PostSent {
  readonly job: Job;
  readonly day: LocalDay;
}

/** Where the demonstration's clock stands, and what was posted on the way. */
export function clockCard(
  voice: Voice,
  moved: { readonly from: Instant; readonly posts: readonly PostSent[] } | null,
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
  return {
    title,
    why: [
      `It was ${momentWords(voice, moved.from)}`,
      moved.posts.length === 0
        ? 'Nothing was posted on the way'
        : `${counted(moved.posts.length, 'post')} on the way: ${postsWords(voice, moved.posts)}`,
    ],
    controls,
  };
}

/** Posts named one by one. */
const mostNamed = 6;

/** "Morning Tue 13 Apr and Evening Tue 13 Apr"; of many only how many of each kind, season notices with their days. */
function postsWords(voice: Voice, posts: readonly PostSent[]): string {
  const named = (post: PostSent): string => `${kinds[post.job]} ${dateWords(voice, post.day)}`;
  if (posts.length <= mostNamed) return listWords(posts.map(named));
  const daily = (['morning', 'evening', 'weekly'] as const).flatMap((job) => {
    const number = posts.filter((post) => post.job === job).length;
    return number === 0 ? [] : [`${number} ${kinds[job]}`];
  });
  return listWords([...daily, ...posts.filter(({ job }) => job === 'season').map(named)]);
}
