import { type Call, noContent, ok, param } from '../http/call.ts';
import { refusals } from '../http/refusal.ts';
import type { Router } from '../http/router.ts';
import { presentMessage, wireTime } from '../messages/present.ts';
import type { StoredMessage } from '../world/records.ts';
import type { World } from '../world/world.ts';
import { findChannel, findMessage } from './messageLookup.ts';

const PINS_PER_CHANNEL = 250;

/** Pinned messages, under the present and the older addresses. */
export function addPinRoutes(router: Router, world: World): void {
  for (const one of ['/channels/{channel}/messages/pins/{message}', '/channels/{channel}/pins/{message}']) {
    router.on('PUT', one, (call) => {
      const message = find(world, call);
      if (pinned(world, message.channelId).length >= PINS_PER_CHANNEL) throw refusals.tooManyPins();
      message.pinnedAtMs = world.clock.nowMs();
      announce(world, message.channelId);
      return noContent;
    });
    router.on('DELETE', one, (call) => {
      const message = find(world, call);
      delete message.pinnedAtMs;
      announce(world, message.channelId);
      return noContent;
    });
  }
  router.on('GET', '/channels/{channel}/messages/pins', (call) => {
    const channel = findChannel(world, param(call, 'channel'));
    const items = pinned(world, channel.id).map((message) => ({
      pinned_at: wireTime(message.pinnedAtMs ?? message.createdAtMs),
      message: presentMessage(world, message),
    }));
    return ok({ items, has_more: false });
  });
  router.on('GET', '/channels/{channel}/pins', (call) => {
    const channel = findChannel(world, param(call, 'channel'));
    return ok(pinned(world, channel.id).map((message) => presentMessage(world, message)));
  });
}

function find(world: World, call: Call): StoredMessage {
  return findMessage(world, findChannel(world, param(call, 'channel')).id, param(call, 'message'), 'open ones');
}

function pinned(world: World, channelId: string): StoredMessage[] {
  return world.messages
    .filter((message) => message.channelId === channelId && message.pinnedAtMs !== undefined)
    .sort((a, b) => (b.pinnedAtMs ?? 0) - (a.pinnedAtMs ?? 0));
}

function announce(world: World, channelId: string): void {
  world.bus.tell({ kind: 'pinsChanged', channelId, lastPinAtMs: pinned(world, channelId)[0]?.pinnedAtMs });
}
