import type { Card } from '../reply/index.ts';
import { notices } from './notices.ts';

/** Where an interaction came from and who started it. */
export interface Asked {
  readonly guildId: string | null;
  readonly channelId: string | null;
  readonly userId: string;
  /** Has the Manage Server permission. */
  readonly manages: boolean;
}

/** Where the bot answers: in one guild, in the configured channel and the one chosen in the settings. */
export interface Place {
  readonly guildId: string;
  readonly channelIds: readonly string[];
}

interface Insider {
  readonly userId: string;
  readonly owner: boolean;
}

/** Whether the bot answers at all, and whether the asker may change settings; or what to say instead. */
export function permit(
  asked: Asked,
  place: Place,
  partners: readonly Insider[],
): { readonly ok: true; readonly owner: boolean } | { readonly ok: false; readonly card: Card } {
  const partner = partners.find(({ userId }) => userId === asked.userId);
  if (partner === undefined && !asked.manages) {
    return { ok: false, card: partners.length === 0 ? notices.notStarted() : notices.stranger() };
  }
  if (asked.guildId !== place.guildId) return { ok: false, card: notices.otherGuild() };
  if (asked.channelId === null || !place.channelIds.includes(asked.channelId)) {
    return { ok: false, card: notices.otherChannel() };
  }
  return { ok: true, owner: asked.manages || partner?.owner === true };
}
