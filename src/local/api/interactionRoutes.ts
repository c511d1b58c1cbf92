import {
  ApplicationCommandAutocompleteCallbackRequestSchema,
  CreateMessageInteractionCallbackRequestSchema,
  ModalInteractionCallbackRequestSchema,
  UpdateMessageInteractionCallbackRequestSchema,
} from 'discord-api-spec/zod';
import { InteractionResponseType, InteractionType, MessageFlags } from 'discord-api-types/v10';
import type { ZodMiniType } from 'zod/mini';
import { type Answer, type Call, noContent, ok, param } from '../http/call.ts';
import { FormErrors, refusals } from '../http/refusal.ts';
import type { Router } from '../http/router.ts';
import { FIXED_IDS } from '../ids.ts';
import type { Interaction, InteractionRegistry } from '../interactions/registry.ts';
import { checkChoices } from '../limits/choiceLimits.ts';
import { checkModalLimits } from '../limits/modalLimits.ts';
import { checkAgainstSpec } from '../limits/specCheck.ts';
import { createLoadingMessage, createMessage, editMessage } from '../messages/compose.ts';
import { presentMessage } from '../messages/present.ts';
import type { MessageBody, WireChoice, WireModal } from '../wire.ts';
import type { MessageOrigin, StoredMessage } from '../world/records.ts';
import type { World } from '../world/world.ts';
import { findMessage } from './messageLookup.ts';

const SCHEMAS: Record<number, ZodMiniType> = {
  [InteractionResponseType.ChannelMessageWithSource]: CreateMessageInteractionCallbackRequestSchema,
  [InteractionResponseType.DeferredChannelMessageWithSource]: CreateMessageInteractionCallbackRequestSchema,
  [InteractionResponseType.DeferredMessageUpdate]: UpdateMessageInteractionCallbackRequestSchema,
  [InteractionResponseType.UpdateMessage]: UpdateMessageInteractionCallbackRequestSchema,
  [InteractionResponseType.ApplicationCommandAutocompleteResult]: ApplicationCommandAutocompleteCallbackRequestSchema,
  [InteractionResponseType.Modal]: ModalInteractionCallbackRequestSchema,
};

/** `POST /interactions/{id}/{token}/callback`: the acknowledgement of an interaction, allowed once and for three seconds. */
export function addInteractionRoutes(router: Router, world: World, interactions: InteractionRegistry): void {
  router.on('POST', '/interactions/{interaction}/{token}/callback', (call) => {
    const interaction = interactions.get(param(call, 'interaction'));
    if (interaction === undefined || interaction.token !== param(call, 'token')) throw refusals.unknownInteraction();
    if (interaction.stage === 'lapsed') throw refusals.unknownInteraction();
    if (interaction.stage === 'answered') throw refusals.alreadyAnswered();
    const type = callbackType(call, interaction);
    const message = answer(world, interactions, interaction, type, call);
    if (call.query.get('with_response') !== 'true') return noContent;
    return respond(world, interaction, type, message);
  });
}

/** Which kinds of callback may answer which kind of interaction. */
function allowedTypes(interaction: Interaction): number[] {
  const message = [
    InteractionResponseType.ChannelMessageWithSource,
    InteractionResponseType.DeferredChannelMessageWithSource,
  ];
  const update = [InteractionResponseType.DeferredMessageUpdate, InteractionResponseType.UpdateMessage];
  switch (interaction.type) {
    case InteractionType.ApplicationCommandAutocomplete:
      return [InteractionResponseType.ApplicationCommandAutocompleteResult];
    case InteractionType.MessageComponent:
      return [...message, ...update, InteractionResponseType.Modal];
    case InteractionType.ModalSubmit:
      return interaction.sourceMessageId === undefined ? message : [...message, ...update];
    default:
      return [...message, InteractionResponseType.Modal];
  }
}

function callbackType(call: Call, interaction: Interaction): number {
  const body = call.body as { type?: unknown } | undefined;
  const errors = new FormErrors();
  const type = body?.type;
  if (type === undefined) {
    errors.add(['type'], 'BASE_TYPE_REQUIRED', 'This field is required');
  } else {
    const allowed = allowedTypes(interaction);
    if (typeof type === 'number' && allowed.includes(type)) return type;
    errors.add(['type'], 'BASE_TYPE_CHOICES', `Value must be one of {${allowed.join(', ')}}.`);
  }
  errors.refuseIfAny();
  throw new Error('unreachable: the form errors above always refuse');
}

function answer(
  world: World,
  interactions: InteractionRegistry,
  interaction: Interaction,
  type: number,
  call: Call,
): StoredMessage | undefined {
  const schema = SCHEMAS[type];
  if (schema === undefined) throw new Error(`no schema for callback type ${type}`);
  const { data } = checkAgainstSpec(schema, call.body) as { data?: MessageBody & { choices?: (WireChoice | null)[] } };
  switch (type) {
    case InteractionResponseType.ChannelMessageWithSource:
    case InteractionResponseType.DeferredChannelMessageWithSource: {
      const body: MessageBody = data ?? {};
      const isEphemeral = ((body.flags ?? 0) & MessageFlags.Ephemeral) !== 0;
      const place = { ...placeOf(interaction), ...(isEphemeral ? { onlyForUserId: interaction.userId } : {}) };
      let message: StoredMessage;
      if (type === InteractionResponseType.ChannelMessageWithSource) {
        message = createMessage(world, { ...place, body, uploads: call.uploads, under: ['data'] });
      } else {
        refuseOtherFlags(body);
        message = createLoadingMessage(world, place);
      }
      interactions.acknowledge(interaction, { type, isEphemeral }, message.id);
      return message;
    }
    case InteractionResponseType.DeferredMessageUpdate:
    case InteractionResponseType.UpdateMessage: {
      const message = findMessage(world, interaction.channelId, interaction.sourceMessageId ?? '', 'ephemeral too');
      if (type === InteractionResponseType.UpdateMessage)
        editMessage(world, message, data ?? {}, call.uploads, ['data']);
      interactions.acknowledge(interaction, { type, isEphemeral: message.onlyForUserId !== undefined }, message.id);
      return message;
    }
    case InteractionResponseType.Modal: {
      const modal = data as unknown as WireModal;
      checkModalLimits(modal, ['data']);
      interactions.acknowledge(interaction, { type, isEphemeral: true, modal }, undefined);
      return undefined;
    }
    default: {
      const choices = (data?.choices ?? []).filter((choice) => choice !== null);
      checkChoices(choices, interaction.focusedType ?? 0);
      interactions.acknowledge(interaction, { type, isEphemeral: true, choices }, undefined);
      return undefined;
    }
  }
}

function refuseOtherFlags(body: MessageBody): void {
  const errors = new FormErrors();
  if (((body.flags ?? 0) & ~MessageFlags.Ephemeral) !== 0)
    errors.add(['data', 'flags'], 'INVALID_FLAGS', 'Only the ephemeral flag may be set on a deferred answer.');
  errors.refuseIfAny();
}

/** Where an answer goes, and what it is an answer to. */
export function placeOf(interaction: Interaction): { channelId: string; authorId: string; origin: MessageOrigin } {
  return {
    channelId: interaction.channelId,
    authorId: FIXED_IDS.application,
    origin: {
      interactionId: interaction.id,
      interactionType: interaction.type,
      userId: interaction.userId,
      ...(interaction.commandName === undefined ? {} : { commandName: interaction.commandName }),
      ...(interaction.sourceMessageId === undefined ? {} : { sourceMessageId: interaction.sourceMessageId }),
    },
  };
}

function respond(world: World, interaction: Interaction, type: number, message: StoredMessage | undefined): Answer {
  const isShown =
    type === InteractionResponseType.ChannelMessageWithSource || type === InteractionResponseType.UpdateMessage;
  return ok({
    interaction: {
      id: interaction.id,
      type: interaction.type,
      channel_id: interaction.channelId,
      ...(message === undefined
        ? {}
        : {
            response_message_id: message.id,
            response_message_loading: (message.flags & MessageFlags.Loading) !== 0,
            response_message_ephemeral: message.onlyForUserId !== undefined,
          }),
    },
    // The service names a resource only for the two callbacks that show a message at once.
    ...(message !== undefined && isShown ? { resource: { type, message: presentMessage(world, message) } } : {}),
  });
}
