import {
  type ButtonInteraction,
  type ChatInputCommandInteraction,
  DiscordAPIError,
  MessageFlags,
  type ModalSubmitInteraction,
  RESTJSONErrorCodes,
  type StringSelectMenuInteraction,
} from 'discord.js';
import type { Answer } from '../../commands/command.ts';
import type { Card } from '../reply/index.ts';
import { renderForm } from './form.ts';
import { postKeyIn } from './postKey.ts';
import { filesByMessage, render, renderWhole } from './render.ts';

/** What can be answered with a message. */
export type Asking = ChatInputCommandInteraction | Control;

/** A pressed button, a chosen select, a form that was sent. */
export type Control = ButtonInteraction | StringSelectMenuInteraction | ModalSubmitInteraction;

/** How an interaction is acknowledged before its answer is known. */
export type Ahead = 'reply' | 'private reply' | 'update';

/** Acknowledges an interaction whose answer may take a while; one that got lost on the way is sent once more. */
export async function acknowledge(asking: Asking, ahead: Ahead): Promise<void> {
  try {
    await defer(asking, ahead);
  } catch (error) {
    if (!isLostOnTheWay(error)) throw error;
    await deferAgain(asking, ahead);
  }
}

async function deferAgain(asking: Asking, ahead: Ahead): Promise<void> {
  try {
    await defer(asking, ahead);
  } catch (error) {
    if (!(error instanceof DiscordAPIError) || error.code !== acknowledgedAlready) throw error;
    // The first one did arrive; the library does not know, as it saw no answer to it.
    asking.deferred = true;
    asking.ephemeral = isUpdateOf(asking, ahead) ? null : ahead === 'private reply';
  }
}

const acknowledgedAlready = RESTJSONErrorCodes.InteractionHasAlreadyBeenAcknowledged;

async function defer(asking: Asking, ahead: Ahead): Promise<void> {
  if (isUpdateOf(asking, ahead)) await asking.deferUpdate();
  else if (ahead === 'private reply') await asking.deferReply({ flags: MessageFlags.Ephemeral });
  else await asking.deferReply();
}

const isUpdateOf = (asking: Asking, ahead: Ahead): asking is Control => ahead === 'update' && isOnMessage(asking);

/** Gives an answer: a form, an update of the message with the pressed control, a new message, or the last two in turn. */
export async function deliver(asking: Asking, answer: Answer): Promise<void> {
  if (answer.form !== undefined) {
    if (asking.isModalSubmit()) throw new Error('a form cannot be the answer to a form');
    await asking.showModal(renderForm(answer.form));
    return;
  }
  const pressed = isOnMessage(asking) ? asking : undefined;
  if (answer.settle !== undefined && pressed !== undefined) {
    await settle(pressed, answer.settle);
    if (answer.card !== undefined) await say(asking, answer.card, answer.private === true);
    return;
  }
  const card = answer.card ?? answer.settle;
  if (card !== undefined) await say(asking, card, answer.private === true);
  else if (pressed === undefined) throw new Error('an answer without a card, a form or a message to settle');
  else if (isUntold(pressed)) await pressed.deferUpdate();
}

/**
 * A new message: the reply itself while there is none, else a follow-up. Before a chart is drawn the interaction is acknowledged. Files that
 * one message does not hold follow in others.
 */
export async function say(asking: Asking, card: Card, isPrivate: boolean): Promise<void> {
  await sayWords(asking, card, isPrivate);
  const [, ...others] = filesByMessage(card);
  for (const [index, files] of others.entries()) {
    const words = render({ title: `${card.title}, files ${index + 2} of ${others.length + 1}` });
    await asking.followUp({ ...words, files, ...(isPrivate ? { flags: MessageFlags.Ephemeral as const } : {}) });
  }
}

async function sayWords(asking: Asking, card: Card, isPrivate: boolean): Promise<void> {
  if (card.chart !== undefined && isUntold(asking)) await acknowledge(asking, isPrivate ? 'private reply' : 'reply');
  const whole = await renderWhole(card);
  const message = { ...whole, ...(isPrivate ? { flags: MessageFlags.Ephemeral as const } : {}) };
  if (isUntold(asking)) {
    await asking.reply(message);
    return;
  }
  // A reply that was promised is known by its privacy; an update that was promised has none.
  const isPromised = !asking.replied && asking.ephemeral !== null;
  if (isPromised && isPrivate === asking.ephemeral) {
    await asking.editReply(whole);
    return;
  }
  // The first follow-up would take over the promised reply, and with it who may see it.
  if (isPromised) await asking.deleteReply();
  await asking.followUp(message);
}

/** Whether the service has heard nothing yet, for which it waits three seconds. */
const isUntold = (asking: Asking): boolean => !asking.deferred && !asking.replied;

/** Whether there is a message whose control was pressed. */
export const isOnMessage = (asking: Asking): asking is Control =>
  asking.isMessageComponent() || (asking.isModalSubmit() && asking.isFromMessage());

/** Turns the message with the pressed control into `card`; a post stays recognisable by its key. */
async function settle(pressed: Control, card: Card): Promise<void> {
  if (card.chart !== undefined && isUntold(pressed)) await acknowledge(pressed, 'update');
  const message = { ...(await renderWhole(card, postKeyIn(pressed.message))), attachments: [] };
  if (!isUntold(pressed)) await pressed.editReply(message);
  else if (pressed.isMessageComponent()) await pressed.update(message);
  else if (pressed.isFromMessage()) await pressed.update(message);
}

const unanswerable: readonly (number | string)[] = [
  RESTJSONErrorCodes.UnknownInteraction,
  acknowledgedAlready,
  RESTJSONErrorCodes.UnknownWebhook,
  RESTJSONErrorCodes.InvalidWebhookToken,
];

/** Whether the interaction's time is over or it was answered already: it cannot be answered any more. */
export const isUnanswerable = (error: unknown): boolean =>
  error instanceof DiscordAPIError && unanswerable.includes(error.code);

/** Whether the request or its answer was lost on the way, so that the service may or may not have acted. */
export const isLostOnTheWay = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && /^(UND_ERR_|E[A-Z]+$)/.test(String(error.code));
