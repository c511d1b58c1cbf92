import { DiscordAPIError, DiscordjsError, DiscordjsErrorCodes, GatewayCloseCodes } from 'discord.js';

/** Why the connection cannot go on, in a sentence for whoever runs the bot. */
export interface Ending {
  readonly sentence: string;
  /** Whether starting again may help: not where a setting is wrong. */
  readonly mayRetry: boolean;
}

const badToken: Ending = {
  sentence:
    'The chat service does not accept DISCORD_TOKEN: copy the bot token again from the developer page and start anew.',
  mayRetry: false,
};

const closings: Readonly<Record<number, Ending>> = {
  [GatewayCloseCodes.AuthenticationFailed]: badToken,
  [GatewayCloseCodes.InvalidShard]: wrongProgram('shard'),
  [GatewayCloseCodes.ShardingRequired]: wrongProgram('sharding'),
  [GatewayCloseCodes.InvalidAPIVersion]: wrongProgram('API version'),
  [GatewayCloseCodes.InvalidIntents]: wrongProgram('intents'),
  [GatewayCloseCodes.DisallowedIntents]: wrongProgram('intents'),
};

function wrongProgram(what: string): Ending {
  return { sentence: `The chat service refuses this program's ${what}: update the bot.`, mayRetry: false };
}

/** What a close code of the gateway means; every code that ends the connection for good has its sentence. */
export const endingOfClose = (code: number): Ending =>
  closings[code] ?? { sentence: `The chat service closed the connection for good (code ${code}).`, mayRetry: true };

/** What a failed sign-in or first request means. */
export function endingOfError(error: unknown): Ending {
  if (error instanceof DiscordjsError && error.code === DiscordjsErrorCodes.TokenInvalid) return badToken;
  if (error instanceof DiscordAPIError && error.status === 401) return badToken;
  if (error instanceof DiscordAPIError && (error.status === 403 || error.status === 404)) {
    return {
      sentence: `The chat service does not let the bot work there (${error.message}): check DISCORD_GUILD_ID and DISCORD_CHANNEL_ID, and that the bot was invited with the permissions in the set-up guide.`,
      mayRetry: false,
    };
  }
  const cause = error instanceof Error ? error.message : String(error);
  return { sentence: `The chat service could not be reached: ${cause}.`, mayRetry: true };
}

export const endingOfSilence: Ending = {
  sentence: 'The connection to the chat service was gone for five minutes: giving up, so that a fresh start can help.',
  mayRetry: true,
};
