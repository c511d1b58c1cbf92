import type { WireCommand, WireComponent, WireEmbed } from '../wire.ts';

export interface LocalUser {
  id: string;
  name: string;
  isOwner: boolean;
  /** Holds the Manage Server permission, which an owner has anyway. */
  mayManage: boolean;
}

export interface LocalChannel {
  id: string;
  name: string;
  /** The user at the other end when this is a direct conversation with the bot. */
  withUserId?: string;
}

export interface StoredFile {
  id: string;
  filename: string;
  contentType: string;
  sizeBytes: number;
  widthPx?: number;
  heightPx?: number;
  description?: string;
}

/** Where a message came from when it answers an interaction. */
export interface MessageOrigin {
  interactionId: string;
  interactionType: number;
  userId: string;
  /** The command as typed, for example "reading log". */
  commandName?: string;
  sourceMessageId?: string;
}

export interface StoredMessage {
  id: string;
  channelId: string;
  authorId: string;
  content: string;
  embeds: WireEmbed[];
  components: WireComponent[];
  files: StoredFile[];
  flags: number;
  createdAtMs: number;
  editedAtMs?: number;
  pinnedAtMs?: number;
  pingedUserIds: string[];
  nonce?: string | number;
  repliesToId?: string;
  origin?: MessageOrigin;
  /** Set when only this user may see the message. */
  onlyForUserId?: string;
}

export interface StoredCommand extends WireCommand {
  id: string;
  version: string;
}
