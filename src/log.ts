import { type Logger, pino, stdSerializers } from 'pino';
import type { LogLevel } from './config.ts';

export type Log = Logger;

/** Writes one JSON line an event to `write` (standard error); neither the bot's token nor an interaction's ever stands in it. */
export function openLog(
  level: LogLevel,
  secrets: readonly string[],
  write: (line: string) => void = (line) => {
    process.stderr.write(line);
  },
): Log {
  return pino(
    {
      level,
      base: { pid: process.pid },
      timestamp: pino.stdTimeFunctions.isoTime,
      formatters: { level: (label) => ({ level: label }) },
      serializers: { err: errorFacts },
    },
    { write: (line: string) => write(withoutSecrets(line, secrets)) },
  );
}

/** `text` with the tokens in it blotted out: the given secrets, and those in the addresses of interactions and webhooks. */
export function withoutSecrets(text: string, secrets: readonly string[]): string {
  const blotted = text
    .replace(/(\/(?:webhooks|interactions)\/\d+\/)[^/?\s"'\\]+/g, '$1[token]')
    .replace(/("token"\s*:\s*")[^"]+/g, '$1[token]');
  return secrets
    .filter((secret) => secret !== '')
    .reduce((line, secret) => line.replaceAll(secret, '[token]'), blotted);
}

const shown = ['type', 'message', 'stack', 'code', 'status', 'method', 'url'] as const;

/** What is logged of an error: never the body that was sent, which may hold a buyer's data. */
function errorFacts(error: unknown): Record<string, unknown> {
  if (!(error instanceof Error)) return { message: String(error) };
  const facts = stdSerializers.err(error) as unknown as Record<string, unknown>;
  return Object.fromEntries(shown.flatMap((name) => (facts[name] === undefined ? [] : [[name, facts[name]]])));
}
