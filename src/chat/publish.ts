import { createHash } from 'node:crypto';
import {
  type Client,
  DiscordAPIError,
  type MessageEditOptions,
  MessageFlags,
  RESTJSONErrorCodes,
  type SendableChannels,
} from 'discord.js';
import { button, type Card, press } from '../reply/index.ts';
import { postKeyIn } from './postKey.ts';
import { renderWhole } from './render.ts';

/** What became of a post. A send that threw may still have arrived: look before you post again. */
export type Published =
  | { readonly outcome: 'sent'; readonly messageId: string }
  | { readonly outcome: 'unknown'; readonly cause: string };

export type Found =
  | { readonly outcome: 'found'; readonly messageId: string }
  | { readonly outcome: 'absent' }
  | { readonly outcome: 'unknown'; readonly cause: string };

export interface PostOptions {
  /** Kind and local date (`morning 2027-04-13`), at most 60 characters: whoever posts under the same key posts the same thing. */
  readonly key: string;
  /** User ids of the people that the post concerns, the only ones who are pinged. */
  readonly mention?: readonly string[];
  /** Nobody's phone rings for it. */
  readonly quiet?: boolean;
}

export type Edited =
  | { readonly outcome: 'edited' }
  /** It is nowhere any more. */
  | { readonly outcome: 'absent' }
  | { readonly outcome: 'unknown'; readonly cause: string };

export interface Publisher {
  /** Posts to the channel, once for a key within the few minutes that the service remembers. */
  publish(card: Card, options: PostOptions): Promise<Published>;
  /** Looks for the post of a key among the channel's last messages. */
  findPost(key: string): Promise<Found>;
  /** Makes a post that was sent say something else; its key stays with it, and nobody is called by that. */
  edit(messageId: string, card: Card, options: Pick<PostOptions, 'key'>): Promise<Edited>;
}

/** The service gives at most 100 messages at a time. */
const PAGE = 100;
const PAGES = 5;

/** The service says for good that a channel is gone, or shut to the bot. */
const isOutOfReach = (error: unknown): boolean =>
  error instanceof DiscordAPIError &&
  (error.code === RESTJSONErrorCodes.UnknownChannel || error.code === RESTJSONErrorCodes.MissingAccess);

const isNoMessage = (error: unknown): boolean =>
  error instanceof DiscordAPIError && error.code === RESTJSONErrorCodes.UnknownMessage;

/** @param channelIds where to post, the preferred channel first; the next one serves when it is gone or shut to the bot */
export function makePublisher(client: Client, channelIds: () => readonly string[]): Publisher {
  async function channel([id = '', ...others] = channelIds()): Promise<SendableChannels> {
    try {
      const found = await client.channels.fetch(id);
      if (found?.isSendable() === true) return found;
    } catch (error) {
      if (!isOutOfReach(error) || others.length === 0) throw error;
    }
    if (others.length === 0) throw new Error('the channel of the posts cannot be written to');
    return channel(others);
  }

  /** Whether the message is in that channel. */
  async function edited(channelId: string, messageId: string, message: MessageEditOptions): Promise<boolean> {
    try {
      const found = await client.channels.fetch(channelId);
      if (found?.isSendable() !== true) return false;
      await found.messages.edit(messageId, message);
      return true;
    } catch (error) {
      if (isNoMessage(error) || isOutOfReach(error)) return false;
      throw error;
    }
  }

  return {
    async publish(card, { key, mention = [], quiet = false }) {
      try {
        const called = withControl({ ...card, mention: [...(card.mention ?? []), ...mention] });
        const message = await renderWhole(called, key);
        const silent = quiet ? { flags: MessageFlags.SuppressNotifications as const } : {};
        const sent = await (await channel()).send({ ...message, ...silent, nonce: nonceOf(key), enforceNonce: true });
        return { outcome: 'sent', messageId: sent.id };
      } catch (error) {
        return { outcome: 'unknown', cause: causeOf(error) };
      }
    },
    async findPost(key) {
      try {
        const messageId = await search(await channel(), client.user?.id, key);
        return messageId === undefined ? { outcome: 'absent' } : { outcome: 'found', messageId };
      } catch (error) {
        return { outcome: 'unknown', cause: causeOf(error) };
      }
    },
    async edit(messageId, card, { key }) {
      try {
        const message = { ...(await renderWhole(withControl(card), key)), attachments: [] };
        // The channel may have been changed since it was posted.
        for (const id of channelIds()) if (await edited(id, messageId, message)) return { outcome: 'edited' };
        return { outcome: 'absent' };
      } catch (error) {
        return { outcome: 'unknown', cause: causeOf(error) };
      }
    },
  };
}

/** At most 25 characters, the same for the same key. */
export const nonceOf = (key: string): string => createHash('sha256').update(key).digest('base64url').slice(0, 25);

/** A post is known by its first control, so it has one. */
const withControl = (card: Card): Card =>
  (card.controls ?? []).length > 0 ? card : { ...card, controls: [[button('Home', press('home', {}))]] };

async function search(channel: SendableChannels, ownId: string | undefined, key: string): Promise<string | undefined> {
  let before: string | undefined;
  for (let page = 0; page < PAGES; page += 1) {
    const messages = await channel.messages.fetch({
      limit: PAGE,
      cache: false,
      ...(before === undefined ? {} : { before }),
    });
    const found = messages.find((message) => message.author.id === ownId && postKeyIn(message) === key);
    if (found !== undefined) return found.id;
    if (messages.size < PAGE) return undefined;
    before = messages.lastKey();
  }
  return undefined;
}

const causeOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
