import { CreatePrivateChannelRequestSchema } from 'discord-api-spec/zod';
import { ok, param } from '../http/call.ts';
import { refusals } from '../http/refusal.ts';
import type { Router } from '../http/router.ts';
import { FIXED_IDS } from '../ids.ts';
import { checkAgainstSpec } from '../limits/specCheck.ts';
import { guildChannels, wireApplication, wireChannel, wireGuild } from '../world/guild.ts';
import { wireAuthor, wireBot, wireMember, wireRoles } from '../world/identity.ts';
import type { LocalChannel } from '../world/records.ts';
import type { World } from '../world/world.ts';
import { checkGuild } from './messageLookup.ts';

/** Who the bot is and where it lives: login, its application, the guild with members, roles and channels. */
export function addIdentityRoutes(router: Router, world: World, gatewayUrl: () => string): void {
  router.on('GET', '/gateway/bot', () =>
    ok({
      url: gatewayUrl(),
      shards: 1,
      session_start_limit: { total: 1000, remaining: 999, reset_after: 0, max_concurrency: 1 },
    }),
  );
  router.on('GET', '/gateway', () => ok({ url: gatewayUrl() }));

  router.on('GET', '/users/@me', () => ok({ ...wireBot(world), mfa_enabled: false, locale: 'en-GB', verified: true }));
  router.on('GET', '/users/{user}', (call) => {
    const id = param(call, 'user');
    if (!isMember(world, id)) throw refusals.unknownUser();
    return ok(wireAuthor(world, id));
  });
  router.on('POST', '/users/@me/channels', (call) => {
    const body = checkAgainstSpec(CreatePrivateChannelRequestSchema, call.body ?? {}) as { recipient_id?: string };
    return ok(wireChannel(world, directChannel(world, body.recipient_id ?? '')));
  });

  router.on('GET', '/applications/@me', () => ok(wireApplication(world)));

  router.on('GET', '/guilds/{guild}', (call) => {
    checkGuild(param(call, 'guild'));
    return ok({
      ...wireGuild(world),
      ...(call.query.get('with_counts') === 'true'
        ? { approximate_member_count: world.users.length + 1, approximate_presence_count: world.users.length + 1 }
        : {}),
    });
  });
  router.on('GET', '/guilds/{guild}/members/{user}', (call) => {
    checkGuild(param(call, 'guild'));
    const id = param(call, 'user') === '@me' ? FIXED_IDS.application : param(call, 'user');
    if (!isMember(world, id)) throw refusals.unknownMember();
    return ok(wireMember(world, id));
  });
  router.on('GET', '/guilds/{guild}/roles', (call) => {
    checkGuild(param(call, 'guild'));
    return ok(wireRoles(world));
  });
  router.on('GET', '/guilds/{guild}/channels', (call) => {
    checkGuild(param(call, 'guild'));
    return ok(guildChannels(world).map((channel) => wireChannel(world, channel)));
  });
}

function isMember(world: World, id: string): boolean {
  return id === FIXED_IDS.application || world.users.some((user) => user.id === id);
}

/** The direct conversation with a user, made when it is first asked for. */
function directChannel(world: World, userId: string): LocalChannel {
  const user = world.users.find((entry) => entry.id === userId);
  if (user === undefined) throw refusals.unknownUser();
  const before = world.channels.find((channel) => channel.withUserId === userId);
  if (before !== undefined) return before;
  const made = { id: world.ids.next(), name: `direct-${user.name}`, withUserId: userId };
  world.channels.push(made);
  world.bus.tell({ kind: 'channelCreated', channelId: made.id });
  return made;
}
