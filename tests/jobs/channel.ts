import type { Posting } from '../../src/jobs/posting.ts';

/** How the next posts go: on and on once the list is through. */
type Fate = 'sent' | 'sent without an answer' | 'lost without an answer';

/** A channel in memory: what was posted under which key, and a service that fails as it is told to. */
export function makeChannel(fates: Fate[] = []) {
  const messages: { readonly id: string; readonly key: string; readonly title: string }[] = [];
  const reach = { looking: true };
  const posting: Posting = {
    publish: (card, { key }) => {
      const fate = fates.shift() ?? 'sent';
      const id = `message-${messages.length + 1}`;
      if (fate !== 'lost without an answer') messages.push({ id, key, title: card.title });
      return Promise.resolve(
        fate === 'sent' ? { outcome: 'sent', messageId: id } : { outcome: 'unknown', cause: 'socket closed' },
      );
    },
    findPost: (key) => {
      if (!reach.looking) return Promise.resolve({ outcome: 'unknown', cause: 'no connection' });
      const found = messages.find((message) => message.key === key);
      return Promise.resolve(found === undefined ? { outcome: 'absent' } : { outcome: 'found', messageId: found.id });
    },
  };
  return { posting, messages, reach, keys: (): string[] => messages.map(({ key }) => key) };
}

export const silentLog = { info: () => undefined, warn: () => undefined, error: () => undefined };
