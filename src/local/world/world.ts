import type { ProtocolClock } from '../clock.ts';
import { FIXED_IDS, IdSource } from '../ids.ts';
import { type Bus, makeBus } from './bus.ts';
import type { LocalChannel, LocalUser, StoredCommand, StoredMessage } from './records.ts';

/** Everything that the stand-in knows, kept in memory; `saved` is called after every lasting change. */
export interface World {
  clock: ProtocolClock;
  ids: IdSource;
  bus: Bus;
  botName: string;
  users: LocalUser[];
  channels: LocalChannel[];
  messages: StoredMessage[];
  commands: StoredCommand[];
  /** Contents of uploaded files by their id. */
  fileBytes: Map<string, Uint8Array>;
  /** The address under which files are reached; known once the server listens. */
  baseUrl: string;
  /** New commands made on the current day, by the protocol clock. */
  creates: { day: string; count: number };
}

export interface WorldSeed {
  users: LocalUser[];
  channels: LocalChannel[];
  messages: StoredMessage[];
  commands: StoredCommand[];
}

export function makeWorld(clock: ProtocolClock, seed: WorldSeed = firstSeed()): World {
  const world: World = {
    clock,
    ids: new IdSource(() => clock.nowMs()),
    bus: makeBus(),
    botName: 'berried',
    ...seed,
    fileBytes: new Map(),
    baseUrl: '',
    creates: { day: '', count: 0 },
  };
  const known = [...seed.users, ...seed.channels, ...seed.messages, ...seed.commands].map((entry) => entry.id);
  for (const id of known) if (!Object.values<string>(FIXED_IDS).includes(id)) world.ids.continueAbove(id);
  for (const file of seed.messages.flatMap((message) => message.files)) world.ids.continueAbove(file.id);
  return world;
}

export function firstSeed(): WorldSeed {
  return {
    users: [
      { id: FIXED_IDS.owner, name: 'rowan', isOwner: true, mayManage: true },
      { id: FIXED_IDS.partner, name: 'linnet', isOwner: false, mayManage: false },
      { id: FIXED_IDS.stranger, name: 'passer', isOwner: false, mayManage: false },
    ],
    channels: [
      { id: FIXED_IDS.channel, name: 'shrimp-room' },
      { id: FIXED_IDS.otherChannel, name: 'elsewhere' },
    ],
    messages: [],
    commands: [],
  };
}

export function userNamed(world: World, nameOrId: string): LocalUser | undefined {
  return world.users.find((user) => user.name === nameOrId || user.id === nameOrId);
}

export function channelNamed(world: World, nameOrId: string): LocalChannel | undefined {
  return world.channels.find((channel) => channel.name === nameOrId || channel.id === nameOrId);
}

/** Whether a user sees a message: open ones are for all, ephemeral ones for the asker, direct ones for their two ends. */
export function isVisibleTo(world: World, message: StoredMessage, userId: string): boolean {
  const channel = world.channels.find((entry) => entry.id === message.channelId);
  if (channel?.withUserId !== undefined && channel.withUserId !== userId) return false;
  return message.onlyForUserId === undefined || message.onlyForUserId === userId;
}
