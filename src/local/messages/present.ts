import { InteractionType, MessageType } from 'discord-api-types/v10';
import { FIXED_IDS } from '../ids.ts';
import type { JsonObject } from '../wire.ts';
import { wireAuthor } from '../world/identity.ts';
import type { MessageOrigin, StoredMessage } from '../world/records.ts';
import type { World } from '../world/world.ts';
import { wireFile } from './files.ts';
import { presentComponents, presentEmbeds } from './presentParts.ts';

/** A message as the service shows it to bots. */
export function presentMessage(world: World, message: StoredMessage): JsonObject {
  const inEmbeds = embeddedNames(message);
  const isCommandAnswer = message.origin?.interactionType === InteractionType.ApplicationCommand;
  return {
    id: message.id,
    channel_id: message.channelId,
    type: isCommandAnswer
      ? MessageType.ChatInputCommand
      : message.repliesToId
        ? MessageType.Reply
        : MessageType.Default,
    author: wireAuthor(world, message.authorId),
    content: message.content,
    timestamp: wireTime(message.createdAtMs),
    edited_timestamp: message.editedAtMs === undefined ? null : wireTime(message.editedAtMs),
    tts: false,
    mention_everyone: false,
    mentions: message.pingedUserIds.map((id) => wireAuthor(world, id)),
    mention_roles: [],
    attachments: message.files.filter((file) => !inEmbeds.has(file.filename)).map((file) => wireFile(world, file)),
    embeds: presentEmbeds(world, message),
    components: presentComponents(world, message),
    pinned: message.pinnedAtMs !== undefined,
    flags: message.flags,
    ...(message.nonce === undefined ? {} : { nonce: message.nonce }),
    ...(message.repliesToId === undefined
      ? {}
      : { message_reference: { type: 0, channel_id: message.channelId, message_id: message.repliesToId } }),
    ...(message.authorId === FIXED_IDS.application ? { application_id: FIXED_IDS.application } : {}),
    ...(message.origin === undefined
      ? {}
      : { webhook_id: FIXED_IDS.application, interaction_metadata: presentOrigin(world, message.origin) }),
  };
}

function presentOrigin(world: World, origin: MessageOrigin): JsonObject {
  const shared = {
    id: origin.interactionId,
    user: wireAuthor(world, origin.userId),
    authorizing_integration_owners: { '0': FIXED_IDS.guild },
  };
  if (origin.interactionType === InteractionType.MessageComponent)
    return { ...shared, type: InteractionType.MessageComponent, interacted_message_id: origin.sourceMessageId ?? '0' };
  if (origin.interactionType === InteractionType.ModalSubmit)
    return {
      ...shared,
      type: InteractionType.ModalSubmit,
      triggering_interaction_metadata:
        origin.sourceMessageId === undefined
          ? { ...shared, type: InteractionType.ApplicationCommand }
          : { ...shared, type: InteractionType.MessageComponent, interacted_message_id: origin.sourceMessageId },
    };
  return { ...shared, type: InteractionType.ApplicationCommand };
}

/** Files shown inside an embed are not listed as attachments. */
function embeddedNames(message: StoredMessage): Set<string> {
  const urls = message.embeds.flatMap((embed) => [embed.image?.url, embed.thumbnail?.url]);
  return new Set(
    urls.flatMap((url) =>
      url?.startsWith('attachment://') ? [decodeURIComponent(url.slice('attachment://'.length))] : [],
    ),
  );
}

export function wireTime(atMs: number): string {
  return new Date(atMs).toISOString();
}
