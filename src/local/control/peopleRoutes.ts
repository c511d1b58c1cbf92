import { created, ok } from '../http/call.ts';
import type { Router } from '../http/router.ts';
import { FIXED_IDS } from '../ids.ts';
import { guildChannels } from '../world/guild.ts';
import { channelNamed, userNamed, type World } from '../world/world.ts';
import { channelAsk, userAsk } from './asks.ts';
import { WrongAsk } from './wrongAsk.ts';

/** Who and what is in the guild, and adding to it. */
export function addPeopleRoutes(router: Router, world: World, isBotConnected: () => boolean): void {
  router.on('GET', '/local/people', () =>
    ok({
      botName: world.botName,
      isBotConnected: isBotConnected(),
      guildId: FIXED_IDS.guild,
      applicationId: FIXED_IDS.application,
      channelId: FIXED_IDS.channel,
      users: world.users,
      channels: world.channels,
    }),
  );
  router.on('POST', '/local/users', (call) => {
    const { name, mayManage } = userAsk.parse(call.body);
    if (userNamed(world, name) !== undefined) throw new WrongAsk(`"${name}" is taken`, 409);
    const user = { id: world.ids.next(), name, isOwner: false, mayManage };
    world.users.push(user);
    world.bus.tell({ kind: 'usersChanged' });
    return created(user);
  });
  router.on('POST', '/local/channels', (call) => {
    const { name } = channelAsk.parse(call.body);
    if (channelNamed(world, name) !== undefined) throw new WrongAsk(`"${name}" is taken`, 409);
    const channel = { id: world.ids.next(), name };
    world.channels.push(channel);
    world.bus.tell({ kind: 'channelCreated', channelId: channel.id });
    return created(channel);
  });
  router.on('GET', '/local/channels', () => ok(guildChannels(world)));
}
