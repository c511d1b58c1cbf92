import {
  type Explanation,
  type Instant,
  minuteMs,
  type OddReading,
  plusMs,
  type Reading,
  type ReadingFix,
  type Tub,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { changeAtDay, type RackNitrate } from './nitrate.ts';

/** Explanations offered as acts; more would be a list to think about. */
const mostFixes = 3;
/** An explanation this unlikely beside the others is not offered. */
const leastShare = 0.1;

/** A reading whose nitrate does not follow from what was logged before it, with what would put the books right; null: it follows. */
export function oddReading(
  desk: Desk,
  { nitrate }: { readonly nitrate: RackNitrate },
  tub: Tub,
  reading: Pick<Reading, 'at' | 'entryId' | 'nitrateMgL'>,
): OddReading | null {
  if (reading.nitrateMgL === null) return null;
  const found = nitrate.oddOf(tub, reading.at);
  if (found === null) return null;
  const fixes = found.explanations
    .filter(({ share }, place) => place === 0 || share >= leastShare)
    .flatMap((explanation) => fixOf(desk, tub, reading.at, explanation));
  return { ...found, entryId: reading.entryId, at: reading.at, fixes: fixes.slice(0, mostFixes) };
}

/** To half a litre, as people measure; no less than that. */
const measured = (litres: number): number => Math.max(0.5, Math.round(litres * 2) / 2);

function fixOf(desk: Desk, tub: Tub, readAt: Instant, explanation: Explanation): ReadingFix[] {
  switch (explanation.of) {
    case 'misread':
      return [{ of: 'reading', because: 'misread', nitrateMgL: explanation.expectedMgL }];
    case 'nitrogen':
      return [{ of: 'reading', because: 'nitrogen', nitrateMgL: Math.round(explanation.nitrateMgL * 10) / 10 }];
    case 'unlogged-change': {
      const litres = measured(explanation.fraction * tub.netLitres);
      return [{ of: 'missed-change', litres, at: plusMs(readAt, -minuteMs), again: false }];
    }
    case 'double-change': {
      const change = changeAtDay(desk, tub, explanation.day);
      return change === undefined
        ? []
        : [{ of: 'missed-change', litres: change.litres, at: plusMs(change.at, minuteMs), again: true }];
    }
    case 'change-not-made': {
      const change = changeAtDay(desk, tub, explanation.day);
      return change === undefined
        ? []
        : [{ of: 'change-not-made', changeEntryId: change.entryId, litres: change.litres, at: change.at }];
    }
    case 'jump':
      return [];
  }
}
