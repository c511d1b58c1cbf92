import { PermissionFlagsBits } from 'discord-api-types/v10';
import { FIXED_IDS } from '../ids.ts';
import type { JsonObject } from '../wire.ts';
import type { LocalUser } from './records.ts';
import type { World } from './world.ts';

const EVERYONE =
  PermissionFlagsBits.ViewChannel |
  PermissionFlagsBits.SendMessages |
  PermissionFlagsBits.EmbedLinks |
  PermissionFlagsBits.AttachFiles |
  PermissionFlagsBits.ReadMessageHistory |
  PermissionFlagsBits.UseApplicationCommands;
const MANAGER = EVERYONE | PermissionFlagsBits.ManageGuild;
const BOT = EVERYONE | PermissionFlagsBits.ManageMessages | PermissionFlagsBits.PinMessages;
const ALL = Object.values(PermissionFlagsBits).reduce((sum, bit) => sum | bit, 0n);

/** When everybody joined; it has no meaning here but must be stated. */
const JOINED_AT = '2026-01-01T00:00:00.000Z';

export const BOT_PERMISSIONS = BOT.toString();

export function permissionsOf(user: LocalUser): string {
  if (user.isOwner) return ALL.toString();
  return (user.mayManage ? MANAGER : EVERYONE).toString();
}

export function wireUser(user: Pick<LocalUser, 'id' | 'name'>): JsonObject {
  return {
    id: user.id,
    username: user.name,
    global_name: null,
    avatar: null,
    discriminator: '0',
    public_flags: 0,
    flags: 0,
    primary_guild: null,
  };
}

export function wireBot(world: World): JsonObject {
  return { ...wireUser({ id: FIXED_IDS.application, name: world.botName }), bot: true };
}

export function wireAuthor(world: World, userId: string): JsonObject {
  if (userId === FIXED_IDS.application) return wireBot(world);
  const user = world.users.find((entry) => entry.id === userId);
  return wireUser(user ?? { id: userId, name: 'unknown' });
}

/** A member as the HTTP routes give it; in an interaction the permissions come on top. */
export function wireMember(world: World, userId: string): JsonObject {
  const user = world.users.find((entry) => entry.id === userId);
  const isBot = userId === FIXED_IDS.application;
  const roles = isBot ? [FIXED_IDS.botRole] : user?.mayManage ? [FIXED_IDS.managerRole] : [];
  return {
    user: wireAuthor(world, userId),
    nick: null,
    avatar: null,
    banner: null,
    roles,
    joined_at: JOINED_AT,
    premium_since: null,
    deaf: false,
    mute: false,
    flags: 0,
    pending: false,
    communication_disabled_until: null,
  };
}

export type WireRole = JsonObject & { id: string; name: string };

export function wireRoles(world: World): WireRole[] {
  return [
    role(FIXED_IDS.guild, '@everyone', EVERYONE, 0),
    role(FIXED_IDS.managerRole, 'manager', MANAGER, 1),
    { ...role(FIXED_IDS.botRole, world.botName, BOT, 2), managed: true, tags: { bot_id: FIXED_IDS.application } },
  ];
}

function role(id: string, name: string, permissions: bigint, position: number): WireRole {
  return {
    id,
    name,
    permissions: permissions.toString(),
    position,
    color: 0,
    colors: { primary_color: 0, secondary_color: null, tertiary_color: null },
    hoist: false,
    managed: false,
    mentionable: false,
    icon: null,
    unicode_emoji: null,
    flags: 0,
  };
}
