import { FIXED_IDS } from '../ids.ts';
import type { LocalChannel, LocalUser } from '../world/records.ts';
import { channelNamed, userNamed, type World } from '../world/world.ts';
import { WrongAsk } from './wrongAsk.ts';

/** The user whom an ask names. */
export function askedUser(world: World, name: string): LocalUser {
  const user = userNamed(world, name);
  if (user === undefined) throw new WrongAsk(`nobody here is called "${name}"`, 404);
  return user;
}

/** The channel that an ask names, or the bot's own. */
export function askedChannel(world: World, name: string = FIXED_IDS.channel): LocalChannel {
  const channel = channelNamed(world, name);
  if (channel === undefined) throw new WrongAsk(`no channel is called "${name}"`, 404);
  return channel;
}
