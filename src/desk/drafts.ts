import type { Draft } from '../store/drafts.ts';
import type { Desk } from './desk.ts';

/** Keeps an unfinished entry; its number. */
export const keepDraft = (desk: Desk, draft: Omit<Draft, 'id'>): number => desk.store.drafts.keep(desk.now(), draft);

export const keptDraft = (desk: Desk, id: number): Draft | undefined => desk.store.drafts.get(id);

export const dropDraft = (desk: Desk, id: number): void => desk.store.drafts.drop(id);
