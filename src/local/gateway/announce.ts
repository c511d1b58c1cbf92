import { GatewayIntentBits } from 'discord-api-types/v10';
import { FIXED_IDS } from '../ids.ts';
import { presentMessage, wireTime } from '../messages/present.ts';
import { wireChannel } from '../world/guild.ts';
import { wireMember } from '../world/identity.ts';
import type { StoredMessage } from '../world/records.ts';
import type { World } from '../world/world.ts';
import type { Gateway } from './gateway.ts';

/**
 * Tells connected clients what happened, as far as their intents reach. Ephemeral messages are announced to nobody.
 * @returns stops the announcing
 */
export function announceHappenings(world: World, gateway: Gateway): () => void {
  return world.bus.listen((happening) => {
    switch (happening.kind) {
      case 'messageCreated':
        return announceMessage(world, gateway, 'MESSAGE_CREATE', happening.message);
      case 'messageEdited':
        return announceMessage(world, gateway, 'MESSAGE_UPDATE', happening.message);
      case 'messageDeleted': {
        const { id, channelId } = happening.message;
        if (happening.message.onlyForUserId !== undefined) return undefined;
        return gateway.dispatch(
          'MESSAGE_DELETE',
          { id, channel_id: channelId, ...guildOf(world, channelId) },
          intentOf(world, channelId),
        );
      }
      case 'pinsChanged': {
        const { channelId, lastPinAtMs } = happening;
        const at = lastPinAtMs === undefined ? null : wireTime(lastPinAtMs);
        const data = { channel_id: channelId, last_pin_timestamp: at, ...guildOf(world, channelId) };
        return gateway.dispatch('CHANNEL_PINS_UPDATE', data, GatewayIntentBits.Guilds);
      }
      case 'channelCreated': {
        const channel = world.channels.find((entry) => entry.id === happening.channelId);
        if (channel === undefined || channel.withUserId !== undefined) return undefined;
        return gateway.dispatch('CHANNEL_CREATE', wireChannel(world, channel), GatewayIntentBits.Guilds);
      }
      default:
        return undefined;
    }
  });
}

function announceMessage(world: World, gateway: Gateway, type: string, message: StoredMessage): void {
  if (message.onlyForUserId !== undefined) return;
  const { user: _user, ...member } = wireMember(world, message.authorId);
  const inGuild = guildOf(world, message.channelId);
  const data = { ...presentMessage(world, message), ...inGuild, ...('guild_id' in inGuild ? { member } : {}) };
  gateway.dispatch(type, data, intentOf(world, message.channelId));
}

function isDirect(world: World, channelId: string): boolean {
  return world.channels.find((channel) => channel.id === channelId)?.withUserId !== undefined;
}

function guildOf(world: World, channelId: string): { guild_id?: string } {
  return isDirect(world, channelId) ? {} : { guild_id: FIXED_IDS.guild };
}

function intentOf(world: World, channelId: string): number {
  return isDirect(world, channelId) ? GatewayIntentBits.DirectMessages : GatewayIntentBits.GuildMessages;
}
