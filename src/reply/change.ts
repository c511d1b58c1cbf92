import { type ChangeLogged, creepPlateau, type Instant, type TopUpLogged } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { readAgeWords } from './nitrate.ts';
import { testAgain } from './standing.ts';
import { undoButton } from './undoButton.ts';
import {
  counted,
  dayWords,
  figure,
  litresWords,
  loggedWords,
  mgLWords,
  momentWords,
  sinceWords,
  type Voice,
} from './voice.ts';

export function changeCard(voice: Voice, by: string, logged: ChangeLogged): Card {
  const { tub, litres, percent, nitrateMgL, next, together, standing } = logged;
  const test = testAgain(standing, ' tomorrow');
  return {
    title: `${tub.name}: ${litresWords(voice, litres)} changed`,
    why: [
      `${percent} % of ${litresWords(voice, tub.netLitres)} net`,
      ...(together === null
        ? []
        : [
            `With the ${litresWords(voice, together.litres)} of ${sinceWords(voice, together.at)} the two swap ${together.percent} %`,
          ]),
      ...(nitrateMgL === null
        ? []
        : [`Nitrate about ${mgLWords(nitrateMgL.before)} → ${mgLWords(nitrateMgL.after)}${readAgeWords(voice, next)}`]),
      `Next change ${dayWords(voice, next.dueOn)}, ${litresWords(voice, next.litres)}`,
      whenLine(voice, by, logged.at),
    ],
    ...(test !== null && { next: test }),
    controls: [[button('Next change', press('change-plan', {}), 'main'), undoButton(logged.entryId)]],
  };
}

/** Who logged it, and when it happened if that was not just now. */
export const whenLine = (voice: Voice, by: string, at: Instant, loggedAt = voice.now): string =>
  Date.parse(loggedAt) - Date.parse(at) < 10 * 60_000
    ? loggedWords(voice, by, loggedAt)
    : `${loggedWords(voice, by, loggedAt)}, for ${momentWords(voice, at)}`;

/** Several changes ticked at once: what was logged, what was not. */
export function changesCard(
  voice: Voice,
  by: string,
  logged: readonly ChangeLogged[],
  notLogged: readonly { readonly tub: string; readonly why: string }[],
): Card {
  const total = logged.reduce((sum, { litres }) => sum + litres, 0);
  const waiting = logged.filter(({ standing }) => testAgain(standing) !== null);
  return {
    title:
      logged.length === 0
        ? 'No change logged'
        : `${counted(logged.length, 'change')} logged, ${litresWords(voice, total)}`,
    why: [
      ...(logged.length === 0 ? [] : [logged.map(({ tub, litres }) => `${tub.name} ${figure(litres)} L`).join(' · ')]),
      ...notLogged.map(({ why }) => why),
      loggedWords(voice, by),
    ],
    ...(waiting.length > 0 && { next: `Test again tomorrow: ${waiting.map(({ tub }) => tub.name).join(' ')}` }),
    controls: [[button('Next change', press('change-plan', {}), 'main')]],
  };
}

/** What a top-up does to TDS. */
function tdsLine({ water, tdsMgL: { last, adds } }: TopUpLogged): string {
  if (water === 'soft') return 'Soft water adds none: TDS stays as it was';
  if (adds === null) return 'Tap water adds its own each time: TDS creeps up';
  const added = `Tap water adds about ${figure(adds, adds < 1 ? 1 : 0)} mg/L TDS`;
  return last === null ? `${added} each time` : `${added}: ${figure(last, 0)} → ${figure(last + adds, 0)}`;
}

/** More than this part of the tub seldom evaporates between two top-ups (common practice, no source), %. */
const muchPercent = 15;

/** A change that was logged as a top-up would leave its nitrate in the books. */
function muchLine({ tub, litres }: TopUpLogged): string[] {
  const percent = Math.round((litres / tub.netLitres) * 100);
  return percent > muchPercent ? [`That is ${percent} % of the tub: if it was a change, undo and log it so`] : [];
}

/** What such top-ups and changes come to in the end. */
function creepLines({ creep, sourceTdsMgL }: TopUpLogged): string[] {
  if (creep === null || !creep.wantsSoftTopUps) return [];
  const evaporated = `${figure(creep.tapTopUpPerWeek * 100)} % a week topped up with tap water`;
  if (creep.factor === null) return [`${evaporated}, nothing changed: minerals rise without end`];
  const plateau = sourceTdsMgL === null ? null : creepPlateau(sourceTdsMgL, creep);
  const settles =
    plateau === null ? `${figure(creep.factor, 2)} times the tap's minerals` : `TDS about ${figure(plateau, 0)}`;
  return [`${evaporated}, ${figure(creep.changedPerWeek * 100)} % changed: settles at ${settles}`];
}

export function topUpCard(voice: Voice, by: string, logged: TopUpLogged): Card {
  const { tub, litres, water } = logged;
  const tap = water === 'tap';
  return {
    title: `${tub.name}: ${litresWords(voice, litres)} topped up, ${tap ? 'tap' : 'soft'} water`,
    why: [
      'Only water evaporates: the minerals stayed in the tub',
      ...muchLine(logged),
      tdsLine(logged),
      ...creepLines(logged),
      whenLine(voice, by, logged.at),
    ],
    ...(tap && { next: 'Use soft water (rain, osmosis) for the next top-up' }),
    controls: [[undoButton(logged.entryId)]],
  };
}
