import { IncomingWebhookRequestPartialSchema, IncomingWebhookUpdateRequestPartialSchema } from 'discord-api-spec/zod';
import { InteractionResponseType, MessageFlags } from 'discord-api-types/v10';
import { type Call, noContent, ok, param } from '../http/call.ts';
import { refusals } from '../http/refusal.ts';
import type { Router } from '../http/router.ts';
import { FIXED_IDS } from '../ids.ts';
import type { Interaction, InteractionRegistry } from '../interactions/registry.ts';
import { checkAgainstSpec } from '../limits/specCheck.ts';
import { createMessage, deleteMessage, editMessage, isLoading } from '../messages/compose.ts';
import { presentMessage } from '../messages/present.ts';
import type { MessageBody } from '../wire.ts';
import type { StoredMessage } from '../world/records.ts';
import type { World } from '../world/world.ts';
import { placeOf } from './interactionRoutes.ts';
import { findMessage } from './messageLookup.ts';

const ONE = '/webhooks/{application}/{token}/messages/{message}';

/** Follow-ups to an interaction and changes to its answers, allowed for 15 minutes after it. */
export function addWebhookRoutes(router: Router, world: World, interactions: InteractionRegistry): void {
  const target = (call: Call) => {
    const interaction = openInteraction(call, interactions);
    return { interaction, message: answeredMessage(world, interaction, param(call, 'message')) };
  };

  router.on('POST', '/webhooks/{application}/{token}', (call) => {
    const interaction = openInteraction(call, interactions);
    const body = checkAgainstSpec(IncomingWebhookRequestPartialSchema, call.body ?? {}) as MessageBody;
    const message = followUp(world, interaction, body, call);
    interactions.changed();
    return ok(presentMessage(world, message));
  });

  router.on('GET', ONE, (call) => ok(presentMessage(world, target(call).message)));

  router.on('PATCH', ONE, (call) => {
    const { interaction, message } = target(call);
    const body = checkAgainstSpec(IncomingWebhookUpdateRequestPartialSchema, call.body ?? {}) as MessageBody;
    editMessage(world, message, body, call.uploads);
    if (message.id === interaction.originalId) interaction.edits += 1;
    interactions.changed();
    return ok(presentMessage(world, message));
  });

  router.on('DELETE', ONE, (call) => {
    deleteMessage(world, target(call).message);
    interactions.changed();
    return noContent;
  });
}

/**
 * The interaction a token stands for. Before the acknowledgement, and after it was missed, the token opens nothing (10015);
 * after 15 minutes it is no longer valid (50027). Both codes are in the service's list; which of them it uses when is from memory.
 */
function openInteraction(call: Call, interactions: InteractionRegistry): Interaction {
  if (param(call, 'application') !== FIXED_IDS.application) throw refusals.unknownWebhook();
  const interaction = interactions.withToken(param(call, 'token'));
  if (interaction === undefined) throw refusals.invalidToken();
  if (interaction.stage !== 'answered') throw refusals.unknownWebhook();
  if (interactions.isExpired(interaction)) throw refusals.invalidToken();
  return interaction;
}

function answeredMessage(world: World, interaction: Interaction, name: string): StoredMessage {
  const id = name === '@original' ? interaction.originalId : name;
  if (id === undefined) throw refusals.unknownMessage();
  const isOwn = id === interaction.originalId || interaction.followUpIds.includes(id);
  if (!isOwn) throw refusals.unknownMessage();
  return findMessage(world, interaction.channelId, id, 'ephemeral too');
}

function followUp(world: World, interaction: Interaction, body: MessageBody, call: Call): StoredMessage {
  const original = world.messages.find((entry) => entry.id === interaction.originalId);
  const isDeferred = interaction.answer?.type === InteractionResponseType.DeferredChannelMessageWithSource;
  if (isDeferred && original !== undefined && isLoading(original)) {
    // The first follow-up to a deferred answer takes the placeholder's place, and keeps its privacy.
    editMessage(world, original, body, call.uploads);
    interaction.edits += 1;
    return original;
  }
  const isEphemeral = ((body.flags ?? 0) & MessageFlags.Ephemeral) !== 0;
  const message = createMessage(world, {
    ...placeOf(interaction),
    body,
    uploads: call.uploads,
    ...(isEphemeral ? { onlyForUserId: interaction.userId } : {}),
  });
  interaction.followUpIds.push(message.id);
  return message;
}
