import { createHash } from 'node:crypto';
import { type Client, DiscordAPIError, RESTJSONErrorCodes, type SendableChannels } from 'discord.js';
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
}

export interface Publisher {
  /** Posts to the channel, once for a key within the few minutes that the service remembers. */
  publish(card: Card, options: PostOptions): Promise<Published>;
  /** Looks for the post of a key among the channel's last messages. */
  findPost(key: string): Promise<Found>;
}

/** The service gives at most 100 messages at a time. */
const PAGE = 100;
const PAGES = 5;

/** The service says for good that a channel is gone, or shut to the bot. */
const isOutOfReach = (error: unknown): boolean =>
  error instanceof DiscordAPIError &&
  (error.code === RESTJSONErrorCodes.UnknownChannel || error.code === RESTJSONErrorCodes.MissingAccess);

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

  return {
    async publish(card, { key, mention = [] }) {
      try {
        const called = withControl({ ...card, mention: [...(card.mention ?? []), ...mention] });
        const message = await renderWhole(called, key);
        const sent = await (await channel()).send({ ...message, nonce: nonceOf(key), enforceNonce: true });
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
