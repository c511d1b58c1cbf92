import { refusals } from '../http/refusal.ts';
import { FIXED_IDS } from '../ids.ts';
import type { LocalChannel, StoredMessage } from '../world/records.ts';
import type { World } from '../world/world.ts';

/** @throws ApiRefusal 10003 */
export function findChannel(world: World, channelId: string): LocalChannel {
  const channel = world.channels.find((entry) => entry.id === channelId);
  if (channel === undefined) throw refusals.unknownChannel();
  return channel;
}

/**
 * Finds a message of a channel. Through the channel's own routes ephemeral messages do not exist.
 * @throws ApiRefusal 10008
 */
export function findMessage(
  world: World,
  channelId: string,
  messageId: string,
  which: 'open ones' | 'ephemeral too',
): StoredMessage {
  const message = world.messages.find((entry) => entry.id === messageId && entry.channelId === channelId);
  if (message === undefined) throw refusals.unknownMessage();
  if (which === 'open ones' && message.onlyForUserId !== undefined) throw refusals.unknownMessage();
  return message;
}

/** @throws ApiRefusal 10004 */
export function checkGuild(guildId: string): void {
  if (guildId !== FIXED_IDS.guild) throw refusals.unknownGuild();
}

/** @throws ApiRefusal 10002 */
export function checkApplication(applicationId: string): void {
  if (applicationId !== FIXED_IDS.application) throw refusals.unknownApplication();
}
