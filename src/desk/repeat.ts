import type { Entry } from '../domain/index.ts';
import type { Desk } from './desk.ts';

/** What the interaction with this key has already written, its first entry; undefined where it wrote nothing. */
export const loggedBy = (desk: Desk, key: string): Entry | undefined => desk.store.entries.ofInteraction(key);
