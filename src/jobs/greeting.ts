import { atHand, businessOf, type Desk, postsBetween, setupStep } from '../desk/index.ts';
import type { Instant } from '../domain/index.ts';
import { homeCard } from '../reply/index.ts';
import type { JobLog, Posting } from './posting.ts';

const welcomeKey = 'welcome';
const everything = '' as Instant;

/** Greets a channel in which nothing was ever posted with the home card, once: before the first post it is looked for in the channel. */
export async function greet({
  desk,
  posting,
  log,
}: {
  readonly desk: Desk;
  readonly posting: Posting;
  readonly log: JobLog;
}): Promise<void> {
  if (postsBetween(desk, everything, desk.now()).length > 0) return;
  const found = await posting.findPost(welcomeKey);
  if (found.outcome !== 'absent') return;
  const sent = await posting.publish(homeCard(setupStep(desk), atHand(desk), businessOf(desk).region !== null), {
    key: welcomeKey,
  });
  if (sent.outcome === 'unknown') log.warn({ cause: sent.cause }, 'the greeting may not have been sent');
}
