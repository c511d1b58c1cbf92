import { GatewayIntentBits } from 'discord-api-types/v10';

/** Close codes as documented; a client must not come back after those marked final. */
export const CLOSE = {
  unknownOpcode: 4001,
  decodeError: 4002,
  notAuthenticated: 4003,
  /** final */
  authenticationFailed: 4004,
  alreadyAuthenticated: 4005,
  invalidSeq: 4007,
  rateLimited: 4008,
  /** final */
  invalidVersion: 4012,
  /** final */
  invalidIntents: 4013,
  /** final */
  disallowedIntents: 4014,
} as const;

/** The longest payload that a client may send, in bytes. */
export const CLIENT_PAYLOAD_BYTES = 4096;
/** Payloads that a client may send in a minute. */
export const CLIENT_PAYLOADS_PER_MINUTE = 120;

const ALL_INTENTS = Object.values(GatewayIntentBits).reduce<number>(
  (sum, bit) => (typeof bit === 'number' ? sum | bit : sum),
  0,
);
/** Intents that must be granted beforehand; the stand-in grants none. */
const PRIVILEGED = GatewayIntentBits.GuildMembers | GatewayIntentBits.GuildPresences | GatewayIntentBits.MessageContent;

export interface Identify {
  token: string;
  intents: number;
}

export interface Resume {
  token: string;
  session_id: string;
  seq: number;
}

export function readIdentify(data: unknown): Identify | undefined {
  const { token, intents } = (data ?? {}) as Partial<Identify>;
  return typeof token === 'string' && typeof intents === 'number' ? { token, intents } : undefined;
}

export function readResume(data: unknown): Resume | undefined {
  const { token, session_id, seq } = (data ?? {}) as Partial<Resume>;
  return typeof token === 'string' && typeof session_id === 'string' && typeof seq === 'number'
    ? { token, session_id, seq }
    : undefined;
}

/** The close code for intents that may not be asked for, if they may not. */
export function intentProblem(intents: number): number | undefined {
  if (!Number.isInteger(intents) || intents < 0 || (intents & ~ALL_INTENTS) !== 0) return CLOSE.invalidIntents;
  return (intents & PRIVILEGED) !== 0 ? CLOSE.disallowedIntents : undefined;
}
