import { describe, expect, it } from 'vitest';
import { contradiction, type Explanation, type TubEvent } from '../../../../src/domain/index.ts';
import { type SeededKind, seededHistories, sourceMgL } from './seededHistories.ts';
import { kitStepsMgL, tubsOf } from './worlds.ts';

const judge = (events: readonly TubEvent[]) => contradiction(events, sourceMgL, kitStepsMgL);

/** Size of an explanation, on the scale of the seeded history. */
function sizeOf(explanation: Explanation): number {
  switch (explanation.of) {
    case 'misread':
      return explanation.expectedMgL;
    case 'nitrogen':
      return explanation.nitrateMgL;
    case 'jump':
      return explanation.addedMgL;
    default:
      return explanation.fraction;
  }
}

describe('a reading that does not follow from those before it', () => {
  const kinds: readonly SeededKind[] = [
    'unlogged-change',
    'double-change',
    'change-not-made',
    'misread',
    'nitrogen',
    'jump',
  ];

  it.each(kinds)('is pointed out with what lies behind it: %s', (kind) => {
    const seeded = seededHistories(kind, 40, 20_270_503);
    const found = seeded.map(({ events, size }) => ({ size, contradiction: judge(events) }));
    const flagged = found.filter((one) => one.contradiction !== null);
    const named = flagged.flatMap(({ size, contradiction: one }) => {
      const behind = one?.explanations.find((explanation) => explanation.of === kind && explanation.share >= 0.15);
      return behind === undefined ? [] : [{ size, behind }];
    });
    const first = flagged.filter((one) => one.contradiction?.explanations[0]?.of === kind);
    process.stdout.write(
      `${kind}: ${flagged.length} of ${seeded.length} pointed out, ${named.length} name it, ${first.length} first\n`,
    );
    expect(flagged.length / seeded.length).toBeGreaterThanOrEqual(0.8);
    expect(named.length / seeded.length).toBeGreaterThanOrEqual(0.8);
    expect(first.length / seeded.length).toBeGreaterThanOrEqual(0.5);
    const near = named.filter(({ size, behind }) => Math.abs(Math.log(sizeOf(behind) / size)) < Math.log(1.8));
    expect(near.length / named.length).toBeGreaterThanOrEqual(0.8);
  });

  it('is seldom seen where nothing happened: under 2 % of readings', () => {
    const tubs = tubsOf(75, 20_270_504);
    const judged = tubs.flatMap(({ events, sourceMgL: source }) =>
      events.flatMap((event, index) => {
        // Every other reading of the long histories: enough for the share, in half the time.
        const isTaken = event.of === 'reading' && index > 0 && (events.length < 20 || index % 2 === 0);
        return isTaken ? [contradiction(events.slice(0, index + 1), source, kitStepsMgL)] : [];
      }),
    );
    const alarms = judged.filter((found) => found !== null).length;
    process.stdout.write(`false alarms: ${alarms} of ${judged.length} readings\n`);
    expect(judged.length).toBeGreaterThan(400);
    expect(alarms / judged.length).toBeLessThan(0.02);
  });

  it('is not told of the first reading, nor without any', () => {
    expect(judge([])).toBeNull();
    expect(judge([{ of: 'reading', day: 0, nitrateMgL: 160 }])).toBeNull();
    expect(judge([{ of: 'change', day: 0, fraction: 0.2 }])).toBeNull();
  });

  it('is found anywhere in a history, and what came after is left out', () => {
    const readings = [20, 20, 20, 20, 160, 160, 160].map(
      (nitrateMgL, week): TubEvent => ({ of: 'reading', day: week * 7, nitrateMgL }),
    );
    const all = readings.flatMap((_, index) => judge(readings.slice(0, index + 1)) ?? []);
    expect(all.map(({ day }) => day)).toEqual([28]);
    expect(all[0]).toEqual(judge(readings.slice(0, 5)));
    expect(all[0]?.isHigh).toBe(true);
    expect(all[0]?.chance).toBeLessThan(0.02);
    expect(all[0]?.explanations.reduce((sum, { share }) => sum + share, 0)).toBeGreaterThan(0.9);
  });
});
