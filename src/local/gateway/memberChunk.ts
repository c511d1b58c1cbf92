import { FIXED_IDS } from '../ids.ts';
import type { JsonObject } from '../wire.ts';
import { wireMember } from '../world/identity.ts';
import type { World } from '../world/world.ts';

interface MemberRequest {
  user_ids?: string | string[];
  query?: string;
  nonce?: string;
}

/**
 * The members that a client asked for, by id or by how their name begins. Asking for all takes an intent that the stand-in
 * does not grant, and brings none.
 */
export function memberChunk(world: World, data: unknown): JsonObject {
  const { user_ids = [], query = '', nonce } = (data ?? {}) as MemberRequest;
  const ids = [user_ids].flat();
  const found = world.users.filter((user) => ids.includes(user.id) || (query !== '' && user.name.startsWith(query)));
  return {
    guild_id: FIXED_IDS.guild,
    members: found.map((user) => wireMember(world, user.id)),
    chunk_index: 0,
    chunk_count: 1,
    not_found: ids.filter((id) => !found.some((user) => user.id === id)),
    ...(nonce === undefined ? {} : { nonce }),
  };
}
