import {
  businessOf,
  type Desk,
  eveningPost,
  eveningState,
  type KeptPost,
  lateMinutesOf,
  morningPost,
  seasonPost,
  weeklyPost,
} from '../desk/index.ts';
import {
  type Card,
  eveningCard,
  eveningConcerns,
  morningCard,
  seasonPostCard,
  type Voice,
  voiceFor,
  weeklyCard,
} from '../reply/index.ts';
import type { Slot } from './planner.ts';
import type { Post } from './posting.ts';

/** What a slot has to say now; null: nothing. A backup has nothing to say. */
export function postFor(desk: Desk, { job }: Slot, lateMinutes: number): Post | null {
  const voice = voiceFor(businessOf(desk), desk.now());
  switch (job) {
    case 'morning':
      return { card: morningCard(voice, morningPost(desk), lateMinutes) };
    case 'evening':
      return evening(desk, voice, lateMinutes);
    case 'weekly':
      return { card: weeklyCard(voice, weeklyPost(desk), lateMinutes) };
    case 'season': {
      const post = seasonPost(desk);
      return post === null ? null : { card: seasonPostCard(voice, post, lateMinutes) };
    }
    case 'backup':
      return null;
  }
}

/** What a post of today that was sent has to say now. */
export function keptCard(desk: Desk, { job, day }: KeptPost): Card {
  const voice = voiceFor(businessOf(desk), desk.now());
  const late = lateMinutesOf(desk, job, day);
  return job === 'morning' ? morningCard(voice, morningPost(desk), late) : eveningCard(voice, eveningState(desk), late);
}

function evening(desk: Desk, voice: Voice, lateMinutes: number): Post | null {
  const post = eveningPost(desk);
  return post === null ? null : { card: eveningCard(voice, post, lateMinutes), mention: eveningConcerns(post) };
}
