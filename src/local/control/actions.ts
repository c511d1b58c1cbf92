import { randomBytes } from 'node:crypto';
import { ComponentType, InteractionType } from 'discord-api-types/v10';
import type { z } from 'zod';
import type { Gateway } from '../gateway/gateway.ts';
import { FIXED_IDS } from '../ids.ts';
import type { Interaction, InteractionRegistry, NewInteraction } from '../interactions/registry.ts';
import { isSelect } from '../limits/controlLimits.ts';
import { FILE_BYTES } from '../limits/messageLimits.ts';
import { everyComponent } from '../messages/componentTree.ts';
import { presentMessage } from '../messages/present.ts';
import type { JsonObject, WireComponent } from '../wire.ts';
import { wirePlace } from '../world/guild.ts';
import { permissionsOf, wireMember, wireUser } from '../world/identity.ts';
import type { LocalChannel, LocalUser, StoredMessage } from '../world/records.ts';
import { isVisibleTo, type World } from '../world/world.ts';
import type { chooseAsk, completeAsk, pressAsk, runAsk, submitAsk } from './asks.ts';
import { fillForm } from './formFields.ts';
import { Resolved } from './resolved.ts';
import { selectValues } from './selectValues.ts';
import { typeCommand } from './typedOptions.ts';
import { askedChannel, askedUser } from './whoAndWhere.ts';
import { WrongAsk } from './wrongAsk.ts';

export interface ActionParts {
  world: World;
  interactions: InteractionRegistry;
  gateway: Gateway;
}

/** What a person does in the channel, each turned into the interaction that the service would send to the bot. */
export function makeActions(parts: ActionParts) {
  const { world, interactions } = parts;

  const messageOf = (ask: { message: string }, user: LocalUser): StoredMessage => {
    const message = world.messages.find((entry) => entry.id === ask.message);
    if (message === undefined || !isVisibleTo(world, message, user.id))
      throw new WrongAsk(`${user.name} sees no message ${ask.message}`);
    return message;
  };

  return {
    run(ask: z.infer<typeof runAsk>): Interaction {
      const user = askedUser(world, ask.as);
      const typed = typeCommand(world, ask.command, ask.options);
      return open(parts, user, askedChannel(world, ask.channel), {
        type: InteractionType.ApplicationCommand,
        commandName: typed.path,
        data: commandData(typed),
      });
    },

    complete(ask: z.infer<typeof completeAsk>): Interaction {
      const user = askedUser(world, ask.as);
      const typed = typeCommand(world, ask.command, ask.options, { focused: ask.focused, typed: ask.typed });
      return open(parts, user, askedChannel(world, ask.channel), {
        type: InteractionType.ApplicationCommandAutocomplete,
        commandName: typed.path,
        focusedType: typed.focused?.type ?? 0,
        data: commandData(typed),
      });
    },

    press(ask: z.infer<typeof pressAsk>): Interaction {
      const user = askedUser(world, ask.as);
      const message = messageOf(ask, user);
      const button = findControl(message, ask.control, (entry) => entry.type === ComponentType.Button);
      return openComponent(parts, user, message, button, {});
    },

    choose(ask: z.infer<typeof chooseAsk>): Interaction {
      const user = askedUser(world, ask.as);
      const message = messageOf(ask, user);
      const select = findControl(message, ask.control, isSelect);
      const resolved = new Resolved(world);
      const values = selectValues(select, ask.values, resolved);
      return openComponent(parts, user, message, select, { values, ...resolved.wire() });
    },

    submit(ask: z.infer<typeof submitAsk>): Interaction {
      const user = askedUser(world, ask.as);
      const asked = interactions.get(ask.form);
      const modal = asked?.answer?.modal;
      if (asked === undefined || modal === undefined || asked.userId !== user.id)
        throw new WrongAsk(`${user.name} was shown no such form`);
      const resolved = new Resolved(world);
      const components = fillForm(modal, ask.fields, resolved);
      const source = world.messages.find((message) => message.id === asked.sourceMessageId);
      const channel = askedChannel(world, asked.channelId);
      return open(parts, user, channel, {
        type: InteractionType.ModalSubmit,
        ...(asked.commandName === undefined ? {} : { commandName: asked.commandName }),
        ...(source === undefined ? {} : { source }),
        data: { custom_id: modal.custom_id, components, ...resolved.wire() },
      });
    },
  };
}

function commandData(typed: ReturnType<typeof typeCommand>): JsonObject {
  const { command, options, resolved } = typed;
  return {
    id: command.id,
    name: command.name,
    type: command.type ?? 1,
    guild_id: FIXED_IDS.guild,
    options: options as unknown as JsonObject[],
    ...resolved.wire(),
  };
}

/** A control by its custom id, or by the words on it. */
function findControl(message: StoredMessage, named: string, isKind: (entry: WireComponent) => boolean): WireComponent {
  const controls = everyComponent(message.components).filter((entry) => isKind(entry) && entry.custom_id);
  const found =
    controls.find((entry) => entry.custom_id === named) ??
    controls.find((entry) => entry.label === named || entry.placeholder === named);
  if (found === undefined) {
    const there = controls.map((entry) => entry.label ?? entry.placeholder ?? entry.custom_id);
    throw new WrongAsk(`the message has no control "${named}"; it has: ${there.join(', ') || 'none'}`);
  }
  if (found.disabled) throw new WrongAsk(`the control "${named}" is switched off`);
  return found;
}

function openComponent(
  parts: ActionParts,
  user: LocalUser,
  message: StoredMessage,
  control: WireComponent,
  more: JsonObject,
): Interaction {
  return open(parts, user, askedChannel(parts.world, message.channelId), {
    type: InteractionType.MessageComponent,
    source: message,
    data: { custom_id: control.custom_id ?? '', component_type: control.type, ...more },
  });
}

interface Opening extends Partial<Pick<NewInteraction, 'commandName' | 'focusedType'>> {
  type: number;
  data: JsonObject;
  source?: StoredMessage;
}

function open(parts: ActionParts, user: LocalUser, channel: LocalChannel, opening: Opening): Interaction {
  const { world, interactions, gateway } = parts;
  const { type, data, source, ...named } = opening;
  const interaction = interactions.open({
    id: world.ids.next(),
    token: randomBytes(48).toString('base64url'),
    type,
    userId: user.id,
    channelId: channel.id,
    ...named,
    ...(source === undefined ? {} : { sourceMessageId: source.id }),
  });
  if (!gateway.isReachable) {
    interactions.lapse(interaction, 'the bot is not connected');
    return interaction;
  }
  const permissions = permissionsOf(user);
  const inGuild = channel.withUserId === undefined;
  gateway.dispatch('INTERACTION_CREATE', {
    id: interaction.id,
    application_id: FIXED_IDS.application,
    type,
    token: interaction.token,
    version: 1,
    ...wirePlace(world, channel, permissions),
    ...(inGuild ? { member: { ...wireMember(world, user.id), permissions } } : { user: wireUser(user) }),
    attachment_size_limit: FILE_BYTES,
    ...(source === undefined ? {} : { message: presentMessage(world, source) }),
    data,
  });
  return interaction;
}
