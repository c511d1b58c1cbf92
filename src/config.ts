import { z } from 'zod';

/** Where the real service listens; the default of `DISCORD_API_URL`. */
const realApi = 'https://discord.com/api';

const realHosts = /(^|\.)discord(app)?\.com$/;

/** The account that the bot signs in with, and where it works. */
export interface ChatSettings {
  readonly apiUrl: string;
  readonly token: string;
  readonly guildId: string;
  readonly channelId: string;
}

export interface Config {
  /** Null without a token: the bot then brings its own stand-in service. */
  readonly chat: ChatSettings | null;
  readonly dataFolder: string;
  readonly logLevel: LogLevel;
  readonly clock: 'machine' | 'demo';
  /** Where the demonstration's clock starts on a fresh data folder; null: at the machine's time. */
  readonly startAt: string | null;
  /** Port of the stand-in and its page, 0 to 65535; 0 takes a free one. */
  readonly port: number;
}

const logLevels = ['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent'] as const;
export type LogLevel = (typeof logLevels)[number];

const snowflake = z.string().regex(/^\d{5,20}$/, 'must be the id that the service shows, digits only');

const environment = z
  .object({
    DISCORD_API_URL: z.url({ protocol: /^https?$/, error: 'must be an address that starts with http:// or https://' }),
    DISCORD_TOKEN: z.string().regex(/^\S+$/, 'must be the token alone, without blanks'),
    DISCORD_GUILD_ID: snowflake,
    DISCORD_CHANNEL_ID: snowflake,
    BERRIED_DATA: z.string(),
    LOG_LEVEL: z.enum(logLevels, { error: `must be one of ${logLevels.join(', ')}` }),
    BERRIED_CLOCK: z.enum(['machine', 'demo'], { error: 'must be machine or demo' }),
    BERRIED_NOW: z.iso.datetime({ offset: true, error: 'must be an instant such as 2027-04-12T06:00:00Z' }),
    BERRIED_PORT: z
      .string()
      .regex(/^\d{1,5}$/, 'must be a port, 0 to 65535')
      .transform(Number)
      .refine((port) => port <= 65_535, 'must be a port, 0 to 65535'),
  })
  .partial();

type Environment = z.infer<typeof environment>;

/**
 * Reads the settings from the environment; an empty variable counts as missing.
 * @returns the settings, or every problem at once, a sentence each
 */
export function readConfig(
  env: Readonly<Record<string, string | undefined>>,
): { readonly ok: true; readonly value: Config } | { readonly ok: false; readonly problems: readonly string[] } {
  const given = Object.fromEntries(
    Object.keys(environment.shape).flatMap((name) => (env[name] ? [[name, env[name]]] : [])),
  );
  const parsed = environment.safeParse(given);
  const problems = parsed.success
    ? []
    : parsed.error.issues.map((issue) => `${String(issue.path[0])} ${issue.message}.`);
  problems.push(...missing(given), ...clockProblems(given));
  if (!parsed.success || problems.length > 0) return { ok: false, problems };
  return { ok: true, value: configOf(parsed.data) };
}

function configOf(env: Environment): Config {
  const { DISCORD_TOKEN: token, DISCORD_GUILD_ID: guildId, DISCORD_CHANNEL_ID: channelId } = env;
  const chat =
    token !== undefined && guildId !== undefined && channelId !== undefined
      ? { apiUrl: (env.DISCORD_API_URL ?? realApi).replace(/\/+$/, ''), token, guildId, channelId }
      : null;
  return {
    chat,
    dataFolder: env.BERRIED_DATA ?? './data',
    // The try-out says one line on the screen; a bot in earnest keeps a log of what it did.
    logLevel: env.LOG_LEVEL ?? (chat === null ? 'warn' : 'info'),
    clock: env.BERRIED_CLOCK ?? (chat === null ? 'demo' : 'machine'),
    startAt: env.BERRIED_NOW === undefined ? null : new Date(env.BERRIED_NOW).toISOString(),
    port: env.BERRIED_PORT ?? 8787,
  };
}

/** The account's settings belong together: all of them, or none for the try-out. */
function missing(given: Readonly<Record<string, unknown>>): string[] {
  const names = ['DISCORD_TOKEN', 'DISCORD_GUILD_ID', 'DISCORD_CHANNEL_ID'];
  const isTryOut = ![...names, 'DISCORD_API_URL'].some((name) => name in given);
  return isTryOut ? [] : names.filter((name) => !(name in given)).map((name) => `${name} is missing.`);
}

function clockProblems(given: Partial<Record<keyof Environment, string>>): string[] {
  const url = given.DISCORD_API_URL ?? realApi;
  const isReal = 'DISCORD_TOKEN' in given && URL.canParse(url) && realHosts.test(new URL(url).hostname);
  if (given.BERRIED_CLOCK !== 'demo' || !isReal) return [];
  return ['BERRIED_CLOCK must not be demo with the real chat service: real parcels go by real days.'];
}
