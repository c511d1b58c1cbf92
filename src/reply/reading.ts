import { type Finding, isOverLimit, type ReadingLogged } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { whenLine } from './change.ts';
import { figureOf, findingLines, fineLines, isToxicAtPh8, listLines, trendLine } from './findings.ts';
import { jumpLines } from './jump.ts';
import { effectLines, limitLine, readLine, riseLine } from './nitrate.ts';
import { fixButtons, oddLines } from './odd.ts';
import { headlineOf, needsFirstAid, othersStanding } from './readingHeadline.ts';
import { firstAid, standingLine, testAgain } from './standing.ts';
import { figure, matchWords, sinceWords, type Voice } from './voice.ts';

/** Values to watch on lines of their own, beside nitrate's lines and without; the rest share one. */
const mostWatched = { withNitrate: 2, alone: 4 };

/** The verdict, the figures that decide, what the change does and what to watch. */
export function readingCard(voice: Voice, by: string, logged: ReadingLogged, loggedAt = voice.now): Card {
  const { tub, verdict, plan, reading, odd, entryId } = logged;
  const { state, words, worst } = headlineOf(voice, logged);
  const wrong = button('Wrong entry', press('undo-ask', { entry: entryId }));
  const change = button(
    `Changed ${figure(plan.litres)} L`,
    press('change-now', { tub: tub.id, litres: plan.litres }),
    'main',
  );
  const wantsChange =
    verdict.findings.some((finding) => finding.state !== 'fine' && isChangedFor(finding)) ||
    plan.reason === 'urgent' ||
    plan.dueOn <= voice.today;
  const fixes = odd === null ? [] : fixButtons(voice, odd);
  const next = adviceFor(voice, logged, worst);
  return {
    title: `${tub.name}: ${state}, ${words}`,
    why: [
      ...troubleLines(voice, logged),
      ...nitrateLines(voice, logged),
      ...(wantsChange ? jumpLines(voice, plan) : []),
      ...logged.trends.slice(0, 2).map((moving) => trendLine(moving)),
      ...fineLines(voice, verdict.findings),
      whenLine(voice, by, reading.at, loggedAt),
    ],
    ...(next !== null && { next }),
    controls: [
      wantsChange ? [change, wrong] : [wrong, button('Next change', press('change-plan', {}))],
      ...(fixes.length > 0 ? [fixes] : []),
    ],
  };
}

/** Whether a change takes out what is wrong. */
const isChangedFor = ({ of }: Finding): boolean => of === 'ammonia' || of === 'nitrite' || of === 'nitrate';

/** All that harms, now read or still standing; then what to watch, the rest of it on one line. */
function troubleLines(voice: Voice, logged: ReadingLogged): string[] {
  const findings = logged.verdict.findings.filter(({ of }) => of !== 'nitrate');
  const acts = findings.filter(({ state }) => state === 'act');
  const watched = findings.filter(({ state }) => state === 'watch');
  const most = logged.reading.nitrateMgL === null ? mostWatched.alone : mostWatched.withNitrate;
  const shown = watched.slice(0, Math.max(0, most - acts.length));
  return [
    ...acts.flatMap((finding) => findingLines(voice, finding)),
    ...othersStanding(logged).map((value) => standingLine(voice, value)),
    ...shown.flatMap((finding) => findingLines(voice, finding)),
    ...listLines(
      'Also',
      watched.slice(shown.length).map((finding) => figureOf(voice, finding)),
    ),
  ];
}

/** Who read the same within the hour, and whether it counts twice. */
function sameLookLine(voice: Voice, look: ReadingLogged['sameLook']): string[] {
  if (look === null) return [];
  const read = `${look.by} read the same ${sinceWords(voice, look.at)}`;
  return [look.isCounted ? `${read}: two looks that agree` : `${read}: counted as one look`];
}

/** What nitrate was read, how it rises and what the change does; or why it does not fit. */
function nitrateLines(voice: Voice, { tub, reading, verdict, plan, kit, odd, sameLook }: ReadingLogged): string[] {
  const found = verdict.findings.find((finding) => finding.of === 'nitrate');
  if (found?.of !== 'nitrate' || reading.nitrateMgL === null) return [];
  const read = [readLine(reading.nitrateMgL, kit, found.limitMgL), ...sameLookLine(voice, sameLook)];
  if (odd !== null) return [...read, ...oddLines(voice, tub, odd)];
  const { nitrate } = plan;
  if (nitrate === null) return read;
  const effects = effectLines(voice, plan);
  const soon = limitLine(nitrate);
  return [
    ...read,
    riseLine(nitrate),
    ...(found.state === 'fine' && soon !== null && plan.dueOn > voice.today ? [soon] : effects),
  ];
}

/** What to do today, or to watch; null: nothing. */
export function adviceFor(voice: Voice, logged: ReadingLogged, worst: Finding | null): string | null {
  const { plan, odd, standing } = logged;
  if (needsFirstAid(logged)) return firstAid(voice, plan, standing);
  if (odd !== null && worst === null) return 'Test again, or tell me what happened';
  if (isTopStep(logged) && (worst === null || worst.of === 'nitrate')) {
    return 'Test again: sample 1:1 with pure water, double what it shows';
  }
  if (worst === null) return testAgain(standing) ?? matchAdvice(voice, logged);
  switch (worst.of) {
    case 'ammonia':
      if (isToxicAtPh8(worst)) return 'Change only with water of the same pH; test again tomorrow';
      return worst.state === 'act' ? testAgain(standing) : 'Test again tomorrow; feed nothing until then';
    case 'nitrite':
      return worst.state === 'act' ? testAgain(standing) : 'Test again tomorrow; feed nothing until then';
    case 'nitrate':
      return matchAdvice(voice, logged);
    case 'temperature':
      return worst.tempC > 20
        ? 'Cool slowly: lid open, fan, shade; more air'
        : 'Warm the room slowly; no sudden change';
    case 'ph':
      return 'Test KH and the source water before changing anything';
    case 'gh':
      return worst.dgh < 6 ? 'Raise minerals slowly over several changes' : 'Top up with soft water only';
    case 'kh':
      return 'Test the source water; change in small steps';
    case 'tds':
      return 'Check what was topped up; change in small steps';
  }
}

/** Whether the kit could not show how much there is, in a sample that was not diluted. */
const isTopStep = ({ kit }: ReadingLogged): boolean =>
  kit?.isStep === true && !Number.isFinite(kit.highMgL) && kit.times === undefined;

/** What the change for nitrate needs; null where none is called for. */
function matchAdvice(voice: Voice, { verdict, plan }: ReadingLogged): string | null {
  const isOver =
    verdict.findings.some(({ of, state }) => of === 'nitrate' && state !== 'fine') ||
    (plan.nitrate !== null && isOverLimit(plan.nitrate));
  if (!isOver) return null;
  return plan.reason === 'source-too-high'
    ? 'Feed less, add plants or use softer water'
    : `Match the new water within ${matchWords(voice)}`;
}
