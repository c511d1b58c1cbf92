import type { Message } from 'discord.js';
import { postKeyOf } from '../reply/index.ts';

/** The key of the post that a message is, which its first control carries; undefined where it is none. */
export function postKeyIn(message: Pick<Message, 'components'> | null): string | undefined {
  const [first] = message?.components ?? [];
  const [control] = first !== undefined && 'components' in first ? first.components : [];
  return control !== undefined && 'customId' in control && control.customId !== null
    ? postKeyOf(control.customId)
    : undefined;
}
