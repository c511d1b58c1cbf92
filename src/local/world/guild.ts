import { ChannelType } from 'discord-api-types/v10';
import { FIXED_IDS } from '../ids.ts';
import type { JsonObject } from '../wire.ts';
import { BOT_PERMISSIONS, wireAuthor, wireBot, wireMember, wireRoles } from './identity.ts';
import type { LocalChannel } from './records.ts';
import type { World } from './world.ts';

const LOCALE = 'en-GB';
const GUILD_MADE_AT = '2026-01-01T00:00:00.000Z';

/** The guild as the HTTP route gives it. */
export function wireGuild(world: World): JsonObject {
  return {
    id: FIXED_IDS.guild,
    name: 'Local try-out',
    icon: null,
    description: null,
    home_header: null,
    splash: null,
    discovery_splash: null,
    features: [],
    banner: null,
    owner_id: world.users.find((user) => user.isOwner)?.id ?? FIXED_IDS.owner,
    application_id: null,
    region: 'deprecated',
    afk_channel_id: null,
    afk_timeout: 300,
    system_channel_id: null,
    system_channel_flags: 0,
    widget_enabled: false,
    widget_channel_id: null,
    verification_level: 0,
    roles: wireRoles(world),
    default_message_notifications: 1,
    mfa_level: 0,
    explicit_content_filter: 0,
    max_presences: null,
    max_members: 500_000,
    vanity_url_code: null,
    premium_tier: 0,
    premium_subscription_count: 0,
    preferred_locale: LOCALE,
    rules_channel_id: null,
    safety_alerts_channel_id: null,
    public_updates_channel_id: null,
    premium_progress_bar_enabled: false,
    nsfw: false,
    nsfw_level: 0,
    emojis: [],
    stickers: [],
    incidents_data: null,
  };
}

/** The guild as the gateway announces it. Without the members intent the service lists only the bot itself. */
export function wireGuildCreate(world: World): JsonObject {
  return {
    ...wireGuild(world),
    joined_at: GUILD_MADE_AT,
    large: false,
    unavailable: false,
    member_count: world.users.length + 1,
    members: [wireMember(world, FIXED_IDS.application)],
    channels: guildChannels(world).map((channel) => wireChannel(world, channel)),
    threads: [],
    presences: [],
    voice_states: [],
    stage_instances: [],
    guild_scheduled_events: [],
    soundboard_sounds: [],
  };
}

export function guildChannels(world: World): LocalChannel[] {
  return world.channels.filter((channel) => channel.withUserId === undefined);
}

export function wireChannel(world: World, channel: LocalChannel): JsonObject {
  const ofChannel = world.messages.filter((message) => message.channelId === channel.id);
  const last = ofChannel.findLast((message) => message.onlyForUserId === undefined);
  const pins = ofChannel.flatMap((message) => (message.pinnedAtMs === undefined ? [] : [message.pinnedAtMs]));
  const shared = {
    id: channel.id,
    last_message_id: last?.id ?? null,
    flags: 0,
    last_pin_timestamp: pins.length === 0 ? null : new Date(Math.max(...pins)).toISOString(),
  };
  if (channel.withUserId !== undefined)
    return { ...shared, type: ChannelType.DM, recipients: [wireAuthor(world, channel.withUserId)] };
  return {
    ...shared,
    type: ChannelType.GuildText,
    guild_id: FIXED_IDS.guild,
    name: channel.name,
    parent_id: null,
    rate_limit_per_user: 0,
    topic: null,
    position: guildChannels(world).indexOf(channel),
    permission_overwrites: [],
    nsfw: false,
  };
}

/** The channel inside an interaction: a part of it, with what the asker may do there. */
export function wirePartialChannel(world: World, channel: LocalChannel, permissions: string): JsonObject {
  return { ...wireChannel(world, channel), permissions };
}

export function wireApplication(world: World): JsonObject {
  return {
    id: FIXED_IDS.application,
    name: world.botName,
    icon: null,
    description: '',
    type: null,
    flags: 0,
    flags_new: '0',
    bot: wireBot(world),
    bot_public: false,
    bot_require_code_grant: false,
    verify_key: '0'.repeat(64),
    redirect_uris: [],
    interactions_endpoint_url: null,
    role_connections_verification_url: null,
    owner: wireAuthor(world, FIXED_IDS.owner),
    approximate_guild_count: 1,
    approximate_user_install_count: 0,
    approximate_user_authorization_count: 0,
    explicit_content_filter: 0,
    team: null,
    eligible_oauth2_scopes: [],
  };
}

/** What every interaction says about its place. */
export function wirePlace(world: World, channel: LocalChannel, permissions: string): JsonObject {
  const inGuild = channel.withUserId === undefined;
  return {
    channel: wirePartialChannel(world, channel, permissions),
    channel_id: channel.id,
    app_permissions: BOT_PERMISSIONS,
    locale: LOCALE,
    entitlements: [],
    authorizing_integration_owners: { '0': inGuild ? FIXED_IDS.guild : '0' },
    context: inGuild ? 0 : 1,
    ...(inGuild
      ? {
          guild_id: FIXED_IDS.guild,
          guild: { id: FIXED_IDS.guild, features: [], locale: LOCALE },
          guild_locale: LOCALE,
        }
      : {}),
  };
}
