import type { Finding, ReadingLogged } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { whenLine } from './change.ts';
import { figureOf, findingLines, fineLines, trendLine } from './findings.ts';
import { jumpLines } from './jump.ts';
import { effectLines, limitLine, readLine, riseLine } from './nitrate.ts';
import { fixButtons, oddLines } from './odd.ts';
import { dayWords, figure, litresWords, matchWords, mgLWords, type Voice } from './voice.ts';

/** The verdict, the figures that decide, what the change does and what to watch. */
export function readingCard(voice: Voice, by: string, logged: ReadingLogged): Card {
  const { tub, verdict, plan, reading, odd, entryId } = logged;
  const troubled = verdict.findings.filter(({ state }) => state !== 'fine');
  const others = troubled.filter(({ of }) => of !== 'nitrate');
  const fine = verdict.findings.filter(({ of, state }) => state === 'fine' && of !== 'nitrate');
  const wrong = button('Wrong entry', press('undo-ask', { entry: entryId }));
  const change = button(
    `Changed ${figure(plan.litres)} L`,
    press('change-now', { tub: tub.id, litres: plan.litres }),
    'main',
  );
  const wantsChange =
    troubled.some(({ of }) => of === 'ammonia' || of === 'nitrite' || of === 'nitrate') || plan.dueOn <= voice.today;
  const fixes = odd === null ? [] : fixButtons(voice, odd);
  const next = adviceFor(voice, logged, troubled[0]);
  return {
    title: `${tub.name}: ${headline(voice, logged, troubled[0])}`,
    why: [
      ...others.slice(0, reading.nitrateMgL === null ? 4 : 2).flatMap((finding) => findingLines(voice, finding)),
      ...nitrateLines(voice, logged),
      ...(wantsChange ? jumpLines(voice, plan) : []),
      ...logged.trends.slice(0, 2).map((moving) => trendLine(moving)),
      ...fineLines(fine.map((finding) => figureOf(voice, finding))),
      whenLine(voice, by, reading.at),
    ],
    ...(next !== null && { next }),
    controls: [
      wantsChange ? [change, wrong] : [wrong, button('Next change', press('change-plan', {}))],
      ...(fixes.length > 0 ? [fixes] : []),
    ],
  };
}

function headline(voice: Voice, { verdict, plan, odd }: ReadingLogged, worst: Finding | undefined): string {
  const { state } = verdict;
  if (odd !== null && state !== 'act') return `watch, nitrate ${mgLWords(odd.readMgL)} does not fit`;
  const isDue = plan.dueOn <= voice.today;
  if (worst === undefined) {
    return isDue ? `fine, routine change ${litresWords(voice, plan.litres)} today` : 'fine, nothing to do';
  }
  if (worst.of === 'nitrate') {
    return `${state}, change ${litresWords(voice, plan.litres)} ${dayWords(voice, isDue ? voice.today : plan.dueOn)}`;
  }
  return `${state}, ${figureOf(voice, worst)}`;
}

/** What nitrate was read, how it rises and what the change does; or why it does not fit. */
function nitrateLines(voice: Voice, { tub, reading, verdict, plan, kit, odd }: ReadingLogged): string[] {
  const found = verdict.findings.find((finding) => finding.of === 'nitrate');
  if (found?.of !== 'nitrate' || reading.nitrateMgL === null) return [];
  const read = readLine(reading.nitrateMgL, kit, found.limitMgL);
  if (odd !== null) return [read, ...oddLines(voice, tub, odd)];
  const { nitrate } = plan;
  if (nitrate === null) return [read];
  const effects = effectLines(voice, plan);
  const soon = limitLine(nitrate);
  return [
    read,
    riseLine(nitrate),
    ...(found.state === 'fine' && soon !== null && plan.dueOn > voice.today ? [soon] : effects),
  ];
}

/** What to do today, or to watch; null: nothing. */
function adviceFor(voice: Voice, { plan, odd }: ReadingLogged, worst: Finding | undefined): string | null {
  const change = `Change ${litresWords(voice, plan.litres)}`;
  if (odd !== null && worst?.state !== 'act') return 'Test again, or tell me what happened';
  if (worst === undefined) return null;
  switch (worst.of) {
    case 'ammonia':
    case 'nitrite':
      return worst.state === 'act'
        ? `${change} now, stop feeding, air up, test again tomorrow`
        : 'Test again tomorrow; feed nothing until then';
    case 'nitrate':
      return plan.reason === 'source-too-high'
        ? 'Feed less, add plants or use softer water'
        : `Match the new water within ${matchWords(voice)}`;
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
