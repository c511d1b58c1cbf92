import type { StoredMessage } from './records.ts';

/** What happened in the stand-in, told to whoever listens: the gateway, the page, the keeper on disk. */
export type Happening =
  | { kind: 'messageCreated'; message: StoredMessage }
  | { kind: 'messageEdited'; message: StoredMessage }
  | { kind: 'messageDeleted'; message: StoredMessage }
  | { kind: 'pinsChanged'; channelId: string; lastPinAtMs: number | undefined }
  | { kind: 'channelCreated'; channelId: string }
  | { kind: 'usersChanged' }
  | { kind: 'commandsChanged' }
  | { kind: 'botPresence'; connected: boolean }
  | { kind: 'typing'; channelId: string };

export interface Bus {
  tell(happening: Happening): void;
  listen(listener: (happening: Happening) => void): () => void;
}

export function makeBus(): Bus {
  const listeners = new Set<(happening: Happening) => void>();
  return {
    tell(happening) {
      for (const listener of [...listeners]) listener(happening);
    },
    listen(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
