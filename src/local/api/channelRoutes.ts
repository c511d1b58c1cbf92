import { MessageCreateRequestSchema, MessageEditRequestPartialSchema } from 'discord-api-spec/zod';
import { type Call, noContent, ok, param } from '../http/call.ts';
import { FormErrors, refusals } from '../http/refusal.ts';
import type { Router } from '../http/router.ts';
import { FIXED_IDS, isNewer } from '../ids.ts';
import { checkAgainstSpec } from '../limits/specCheck.ts';
import { createMessage, deleteMessage, editMessage } from '../messages/compose.ts';
import { messageOfNonce } from '../messages/nonces.ts';
import { presentMessage } from '../messages/present.ts';
import type { MessageBody } from '../wire.ts';
import { wireChannel } from '../world/guild.ts';
import type { StoredMessage } from '../world/records.ts';
import type { World } from '../world/world.ts';
import { findChannel, findMessage } from './messageLookup.ts';

const ALL = '/channels/{channel}/messages';
const ONE = `${ALL}/{message}`;

/** Channels and the messages in them, as the bot reads and writes them. */
export function addChannelRoutes(router: Router, world: World): void {
  const channelOf = (call: Call) => findChannel(world, param(call, 'channel'));
  const messageOf = (call: Call) => findMessage(world, channelOf(call).id, param(call, 'message'), 'open ones');

  router.on('GET', '/channels/{channel}', (call) => ok(wireChannel(world, channelOf(call))));

  router.on('GET', ALL, (call) =>
    ok(listed(world, channelOf(call).id, call).map((message) => presentMessage(world, message))),
  );
  router.on('GET', ONE, (call) => ok(presentMessage(world, messageOf(call))));

  router.on('POST', ALL, (call) => {
    const channel = channelOf(call);
    const body = checkAgainstSpec(MessageCreateRequestSchema, call.body ?? {}) as MessageBody;
    if (body.message_reference) findReference(world, channel.id, body);
    const before = messageOfNonce(world, FIXED_IDS.application, body);
    if (before !== undefined) return ok(presentMessage(world, before));
    const authorId = FIXED_IDS.application;
    return ok(
      presentMessage(world, createMessage(world, { channelId: channel.id, authorId, body, uploads: call.uploads })),
    );
  });

  router.on('PATCH', ONE, (call) => {
    const message = messageOf(call);
    if (message.authorId !== FIXED_IDS.application) throw refusals.notTheAuthor();
    editMessage(
      world,
      message,
      checkAgainstSpec(MessageEditRequestPartialSchema, call.body ?? {}) as MessageBody,
      call.uploads,
    );
    return ok(presentMessage(world, message));
  });

  router.on('DELETE', ONE, (call) => {
    deleteMessage(world, messageOf(call));
    return noContent;
  });

  router.on('POST', '/channels/{channel}/typing', (call) => {
    world.bus.tell({ kind: 'typing', channelId: channelOf(call).id });
    return noContent;
  });
}

function findReference(world: World, channelId: string, body: MessageBody): void {
  const errors = new FormErrors();
  const id = body.message_reference?.message_id;
  if (!world.messages.some((message) => message.id === id && message.channelId === channelId))
    errors.add(['message_reference'], 'REPLIES_UNKNOWN_MESSAGE', 'Unknown message');
  errors.refuseIfAny();
}

/** Newest first, as the service lists them. */
function listed(world: World, channelId: string, call: Call): StoredMessage[] {
  const limit = readLimit(call);
  const newestFirst = world.messages
    .filter((message) => message.channelId === channelId && message.onlyForUserId === undefined)
    .reverse();
  const before = call.query.get('before');
  const after = call.query.get('after');
  const around = call.query.get('around');
  if (before !== null) return newestFirst.filter((message) => isNewer(before, message.id)).slice(0, limit);
  if (after !== null) return newestFirst.filter((message) => isNewer(message.id, after)).slice(-limit);
  if (around !== null) {
    const newer = newestFirst.filter((message) => isNewer(message.id, around)).slice(-Math.floor(limit / 2));
    return [...newer, ...newestFirst.filter((message) => !isNewer(message.id, around))].slice(0, limit);
  }
  return newestFirst.slice(0, limit);
}

function readLimit(call: Call): number {
  const text = call.query.get('limit') ?? '50';
  const limit = Number(text);
  const errors = new FormErrors();
  if (!Number.isInteger(limit)) errors.add(['limit'], 'NUMBER_TYPE_COERCE', `Value "${text}" is not int.`);
  else if (limit < 1) errors.add(['limit'], 'NUMBER_TYPE_MIN', 'int value should be greater than or equal to 1.');
  else if (limit > 100) errors.add(['limit'], 'NUMBER_TYPE_MAX', 'int value should be less than or equal to 100.');
  errors.refuseIfAny();
  return limit;
}
