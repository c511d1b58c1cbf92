import { InteractionResponseType } from 'discord-api-types/v10';
import type { Interaction, InteractionRegistry } from '../interactions/registry.ts';
import { isLoading } from '../messages/compose.ts';
import { presentMessage } from '../messages/present.ts';
import type { JsonObject, WireChoice, WireModal } from '../wire.ts';
import type { LocalUser, StoredMessage } from '../world/records.ts';
import { isVisibleTo, type World } from '../world/world.ts';

export type OutcomeKind = 'message' | 'deferred' | 'update' | 'deferredUpdate' | 'modal' | 'choices' | 'none';

/** What came of an interaction, as the person who caused it sees it. */
export interface Outcome {
  interactionId: string;
  kind: OutcomeKind;
  /** Why there is no answer. */
  failure?: string;
  isEphemeral: boolean;
  /** The answer, or the message that was changed. */
  message?: ShownMessage;
  followUps: ShownMessage[];
  modal?: WireModal;
  choices?: WireChoice[];
}

export type ShownMessage = JsonObject & {
  id: string;
  local: {
    authorName: string;
    isEphemeral: boolean;
    /** A deferred answer that is not filled in yet. */
    isLoading: boolean;
    askedBy?: string;
    askedFor?: string;
  };
};

const KINDS: Record<number, OutcomeKind> = {
  [InteractionResponseType.ChannelMessageWithSource]: 'message',
  [InteractionResponseType.DeferredChannelMessageWithSource]: 'deferred',
  [InteractionResponseType.DeferredMessageUpdate]: 'deferredUpdate',
  [InteractionResponseType.UpdateMessage]: 'update',
  [InteractionResponseType.Modal]: 'modal',
  [InteractionResponseType.ApplicationCommandAutocompleteResult]: 'choices',
};

export function outcomeOf(world: World, interaction: Interaction): Outcome {
  const { answer } = interaction;
  const original = world.messages.find((message) => message.id === interaction.originalId);
  const followUps = interaction.followUpIds.flatMap((id) => world.messages.filter((message) => message.id === id));
  return {
    interactionId: interaction.id,
    kind: answer === undefined ? 'none' : (KINDS[answer.type] ?? 'none'),
    isEphemeral: answer?.isEphemeral ?? false,
    followUps: followUps.map((message) => showMessage(world, message)),
    ...(interaction.failure === undefined ? {} : { failure: interaction.failure }),
    ...(original === undefined ? {} : { message: showMessage(world, original) }),
    ...(answer?.modal === undefined ? {} : { modal: answer.modal }),
    ...(answer?.choices === undefined ? {} : { choices: answer.choices }),
  };
}

/** Waits for the acknowledgement or its lapse, then, for a deferred answer, at most `settleMs` for it to be filled in. */
export async function waitForOutcome(
  world: World,
  interactions: InteractionRegistry,
  interaction: Interaction,
  settleMs: number,
): Promise<Outcome> {
  await interactions.until(() => interaction.stage !== 'waiting', 60_000);
  if (settleMs > 0) await interactions.until(() => isSettled(world, interaction), settleMs);
  return outcomeOf(world, interaction);
}

function isSettled(world: World, interaction: Interaction): boolean {
  const hasMore = interaction.edits > 0 || interaction.followUpIds.length > 0;
  switch (interaction.answer?.type) {
    case InteractionResponseType.DeferredChannelMessageWithSource: {
      const original = world.messages.find((message) => message.id === interaction.originalId);
      return original === undefined || !isLoading(original);
    }
    case InteractionResponseType.DeferredMessageUpdate:
      return hasMore;
    default:
      return true;
  }
}

/** The messages of a channel that a user sees, oldest first. */
export function visibleMessages(world: World, channelId: string, user: LocalUser, limit: number): ShownMessage[] {
  return world.messages
    .filter((message) => message.channelId === channelId && isVisibleTo(world, message, user.id))
    .slice(-limit)
    .map((message) => showMessage(world, message));
}

export function showMessage(world: World, message: StoredMessage): ShownMessage {
  const wire = presentMessage(world, message);
  const asker = world.users.find((user) => user.id === message.origin?.userId);
  return {
    ...wire,
    id: message.id,
    local: {
      authorName: world.users.find((user) => user.id === message.authorId)?.name ?? world.botName,
      isEphemeral: message.onlyForUserId !== undefined,
      isLoading: isLoading(message),
      ...(asker === undefined ? {} : { askedBy: asker.name }),
      ...(message.origin?.commandName === undefined ? {} : { askedFor: message.origin.commandName }),
    },
  };
}
