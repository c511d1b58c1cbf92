import type { MessageBody } from '../wire.ts';
import type { StoredMessage } from '../world/records.ts';
import type { World } from '../world/world.ts';

/** How long the service compares nonces; it documents "the past few minutes". */
export const NONCE_WINDOW_MS = 3 * 60_000;

/** The message that was already made with this nonce, when the sender asked for that to be looked at. */
export function messageOfNonce(world: World, authorId: string, body: MessageBody): StoredMessage | undefined {
  if (!body.enforce_nonce || body.nonce === undefined || body.nonce === null) return undefined;
  const since = world.clock.nowMs() - NONCE_WINDOW_MS;
  return world.messages.findLast(
    (message) =>
      message.authorId === authorId && String(message.nonce) === String(body.nonce) && message.createdAtMs >= since,
  );
}
