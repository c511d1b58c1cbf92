import type { Posting } from '../../src/jobs/posting.ts';
import type { Card } from '../../src/reply/index.ts';

/** How the next posts go: on and on once the list is through. */
type Fate = 'sent' | 'sent without an answer' | 'lost without an answer';

interface Posted {
  readonly id: string;
  readonly key: string;
  /** As it was posted. */
  readonly title: string;
  readonly mention: readonly string[];
  readonly isQuiet: boolean;
  /** As it stands now. */
  card: Card;
  edits: number;
}

/** A channel in memory: what was posted under which key, and a service that fails as it is told to. */
export function makeChannel(fates: Fate[] = []) {
  const messages: Posted[] = [];
  const reach = { looking: true, editing: true };
  const posting: Posting = {
    publish: (card, { key, mention = [], quiet = false }) => {
      const fate = fates.shift() ?? 'sent';
      const id = `message-${messages.length + 1}`;
      if (fate !== 'lost without an answer') {
        messages.push({ id, key, title: card.title, mention, isQuiet: quiet, card, edits: 0 });
      }
      return Promise.resolve(
        fate === 'sent' ? { outcome: 'sent', messageId: id } : { outcome: 'unknown', cause: 'socket closed' },
      );
    },
    findPost: (key) => {
      if (!reach.looking) return Promise.resolve({ outcome: 'unknown', cause: 'no connection' });
      const found = messages.find((message) => message.key === key);
      return Promise.resolve(found === undefined ? { outcome: 'absent' } : { outcome: 'found', messageId: found.id });
    },
    edit: (messageId, card) => {
      if (!reach.editing) return Promise.resolve({ outcome: 'unknown', cause: 'no connection' });
      const found = messages.find(({ id }) => id === messageId);
      if (found === undefined) return Promise.resolve({ outcome: 'absent' });
      found.card = card;
      found.edits += 1;
      return Promise.resolve({ outcome: 'edited' });
    },
  };
  return { posting, messages, reach, keys: (): string[] => messages.map(({ key }) => key) };
}

export const silentLog = { info: () => undefined, warn: () => undefined, error: () => undefined };
