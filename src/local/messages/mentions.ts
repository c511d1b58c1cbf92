import type { WireAllowedMentions, WireComponent } from '../wire.ts';
import type { World } from '../world/world.ts';
import { everyComponent } from './componentTree.ts';

const USER_MENTION = /<@!?(\d+)>/g;

/**
 * The users whom a message pings: named in its text and allowed by the message itself.
 * Without `allowed_mentions` everybody named is pinged. Embeds never ping; text displays do.
 */
export function pingedUsers(
  world: World,
  content: string,
  components: readonly WireComponent[],
  allowed: WireAllowedMentions | null | undefined,
): string[] {
  const shown = everyComponent(components).map((component) => component.content ?? '');
  const named = [content, ...shown].flatMap((text) => [...text.matchAll(USER_MENTION)].map((match) => match[1] ?? ''));
  const known = [...new Set(named)].filter((id) => world.users.some((user) => user.id === id));
  if (!allowed || allowed.parse?.includes('users')) return known;
  return known.filter((id) => allowed.users?.includes(id));
}
