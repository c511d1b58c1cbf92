import { storeFile, wireFile } from '../messages/files.ts';
import type { JsonObject } from '../wire.ts';
import { wirePartialChannel } from '../world/guild.ts';
import { permissionsOf, wireMember, wireRoles, wireUser } from '../world/identity.ts';
import { channelNamed, userNamed, type World } from '../world/world.ts';
import type { FileAsk } from './asks.ts';
import { WrongAsk } from './wrongAsk.ts';

/** Collects whom and what the values of an interaction stand for, and gives their ids. */
export class Resolved {
  readonly #world: World;
  readonly #parts: Record<'users' | 'members' | 'channels' | 'roles' | 'attachments', JsonObject> = {
    users: {},
    members: {},
    channels: {},
    roles: {},
    attachments: {},
  };

  constructor(world: World) {
    this.#world = world;
  }

  user(text: string): string {
    const user = userNamed(this.#world, text.replace(/^<@!?(\d+)>$|^@/, '$1'));
    if (user === undefined) throw new WrongAsk(`nobody here is called "${text}"`);
    const { user: _user, deaf: _deaf, mute: _mute, ...member } = wireMember(this.#world, user.id);
    this.#parts.users[user.id] = wireUser(user);
    this.#parts.members[user.id] = { ...member, permissions: permissionsOf(user) };
    return user.id;
  }

  channel(text: string): string {
    const channel = channelNamed(this.#world, text.replace(/^<#(\d+)>$|^#/, '$1'));
    if (channel === undefined || channel.withUserId !== undefined) throw new WrongAsk(`no channel is called "${text}"`);
    this.#parts.channels[channel.id] = wirePartialChannel(this.#world, channel, '0');
    return channel.id;
  }

  role(text: string): string {
    const role = wireRoles(this.#world).find((entry) => entry.id === text || entry.name === text);
    if (role === undefined) throw new WrongAsk(`no role is called "${text}"`);
    this.#parts.roles[role.id] = role;
    return role.id;
  }

  mentionable(text: string): string {
    return userNamed(this.#world, text) === undefined ? this.role(text) : this.user(text);
  }

  file(where: string, value: unknown): string {
    if (!isFile(value)) throw new WrongAsk(`"${where}" takes a file`);
    const { base64, ...named } = value;
    const stored = storeFile(this.#world, { ...named, bytes: new Uint8Array(Buffer.from(base64, 'base64')) });
    this.#parts.attachments[stored.id] = { ...wireFile(this.#world, stored), ephemeral: true };
    return stored.id;
  }

  /** The parts that hold anything, or nothing at all. */
  wire(): { resolved?: JsonObject } {
    const filled = Object.entries(this.#parts).filter(([, entries]) => Object.keys(entries).length > 0);
    return filled.length === 0 ? {} : { resolved: Object.fromEntries(filled) };
  }
}

function isFile(value: unknown): value is FileAsk {
  return typeof value === 'object' && value !== null && 'base64' in value;
}
