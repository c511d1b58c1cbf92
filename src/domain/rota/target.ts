import type { Tub } from '../tub.ts';
import type { Chore, ChorePlace, ChoreTarget } from './chore.ts';

/** What a chore is about now: each tub, each rack, or the business once. Nothing without a tub. */
export function targetsOf(chore: Pick<Chore, 'scope'>, tubs: readonly Tub[]): ChoreTarget[] {
  switch (chore.scope) {
    case 'tub':
      return tubs.map(({ id, name, rack }) => ({ of: 'tub', tubId: id, name, rack }));
    case 'rack':
      return [...new Set(tubs.map(({ rack }) => rack))].map((rack) => ({ of: 'rack', rack }));
    case 'business':
      return tubs.length === 0 ? [] : [{ of: 'business' }];
  }
}

/** A target as it is stored with a chore. */
export const placeOf = (chore: Pick<Chore, 'id'>, target: ChoreTarget): ChorePlace => ({
  choreId: chore.id,
  tubId: target.of === 'tub' ? target.tubId : null,
  rack: target.of === 'rack' ? target.rack : null,
});

/** One text per chore and place. */
export const placeKey = ({ choreId, tubId, rack }: ChorePlace): string => `${choreId}/${tubId ?? ''}/${rack ?? ''}`;

/** The rack that a target belongs to; null: none. */
export const rackOfTarget = (target: ChoreTarget): string | null => (target.of === 'business' ? null : target.rack);
