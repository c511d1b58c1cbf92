import { type Chore, type ChoreTarget, isMeasured, type LocalDay } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { tickRows } from './rotaTicks.ts';
import {
  byPartner,
  doneWords,
  minutesOf,
  minutesWords,
  nobody,
  type RotaLine,
  taskList,
  taskWords,
} from './rotaWords.ts';
import { roundButton } from './round.ts';
import { undoButton } from './undoButton.ts';
import { counted, dateWords, dayWords, listWords, loggedWords, type Voice } from './voice.ts';

/** What is to be done today, by partner; of one partner alone where `who` is given. */
export function rotaTodayCard(voice: Voice, lines: readonly RotaLine[], who: string | null): Card {
  const own = lines.filter((line) => who === null || line.partner === who || line.done?.by === who);
  const open = own.filter(({ done }) => done === null);
  const late = open.filter(({ lateDays }) => lateDays > 0).length;
  const whose = who === null ? 'Today' : `${who} today`;
  return {
    title:
      open.length === 0
        ? `${whose}: ${own.length === 0 ? 'nothing to do' : 'all done'}`
        : `${whose}: ${counted(open.length, 'chore')}, ${minutesWords(minutesOf(open))}${late > 0 ? `, ${late} late` : ''}`,
    why: [...byPartner(open).map(([name, mine]) => partnerLine(name, mine)), ...doneWords(own)],
    controls: tickRows('rota', voice.today, open, [
      ...(open.length > 0 ? [roundButton()] : []),
      button('The week', press('rota-week', {})),
    ]),
  };
}

/** "wren (52 min): water change A1 and A2 · feed rack A". */
export const partnerLine = (name: string, lines: readonly RotaLine[], most?: number): string =>
  `${name} (${minutesWords(minutesOf(lines))}): ${taskList(lines, most)}`;

/** The days to come, minutes a partner, and what is heaviest. */
export function rotaWeekCard(voice: Voice, lines: readonly RotaLine[], who: string | null): Card {
  const own = lines.filter((line) => line.done === null && (who === null || line.partner === who));
  const days = [...new Set(own.map(({ on }) => on))].sort();
  const shares = byPartner(own).map(([name, mine]) => `${name} ${minutesWords(minutesOf(mine))}`);
  const away = own.filter(({ partner }) => partner === null).length;
  return {
    title: `${who ?? 'The week'}: ${own.length === 0 ? 'nothing to do' : `${minutesWords(minutesOf(own))} of chores`}`,
    why: [
      ...(who === null && shares.length > 0 ? [shares.join(' · ')] : []),
      ...dailyLines(own),
      ...days.map((day) =>
        weekLine(
          voice,
          day,
          own.filter(({ on }) => on === day),
        ),
      ),
      ...(away > 0 ? [`${counted(away, 'chore')} without anybody: ${nobody} is there who does them`] : []),
    ],
    controls: [[button('Today', press('rota-today', {}), 'main')]],
  };
}

/** What comes every day stands in a line of its own. */
const isDaily = ({ due }: RotaLine): boolean => due.everyDays === 1 && due.until === null;

function dailyLines(lines: readonly RotaLine[]): string[] {
  const names = new Set(lines.filter(isDaily).map(({ due }) => taskWords(due.chore, due.target)));
  return names.size === 0 ? [] : [`Every day: ${listWords([...names])}`];
}

function weekLine(voice: Voice, day: LocalDay, lines: readonly RotaLine[]): string {
  const others = lines.filter((line) => !isDaily(line));
  const what = others.length === 0 ? 'no more than every day' : taskList(others, 5);
  return `${dateWords(voice, day)}, ${minutesWords(minutesOf(lines))}: ${what}`;
}

export interface TickedWords {
  readonly chore: Chore;
  readonly targets: readonly ChoreTarget[];
  readonly earlierThan: LocalDay | null;
  readonly nextOn: LocalDay | null;
  readonly entryId: number;
}

export function choreDoneCard(voice: Voice, by: string, ticked: TickedWords): Card {
  const { chore, targets, earlierThan, nextOn, entryId } = ticked;
  const [first] = targets;
  return {
    title: `${taskTitle(chore, targets)}: done`,
    why: [
      ...(earlierThan === null ? [] : [`Earlier than due (${dayWords(voice, earlierThan)})`]),
      ...(nextOn === null ? [] : [`Next ${dayWords(voice, nextOn)}`]),
      loggedWords(voice, by),
    ],
    ...(isMeasured(chore) && {
      next: `Log what the kit showed: the ${chore.act === 'test' ? 'first aid' : 'change plan'} goes by it`,
    }),
    controls: [
      [
        ...(isMeasured(chore) && first?.of === 'tub'
          ? [button('Log the reading', press('reading-form', { tub: first.tubId }), 'main')]
          : []),
        button('Rota', press('rota-today', {})),
        undoButton(entryId),
      ],
    ],
  };
}

function taskTitle(chore: Chore, targets: readonly ChoreTarget[]): string {
  const [first] = targets;
  if (targets.length === 1 && first !== undefined) return taskWords(chore, first);
  return `${chore.name}, ${targets.length} ${first?.of === 'rack' ? 'racks' : 'tubs'}`;
}

export function choreLaterCard(
  voice: Voice,
  by: string,
  put: {
    readonly chore: Chore;
    readonly targets: readonly ChoreTarget[];
    readonly until: LocalDay;
    readonly reason: string;
    readonly entryId: number;
  },
): Card {
  return {
    title: `${taskTitle(put.chore, put.targets)}: put off to ${dayWords(voice, put.until)}`,
    why: [`Reason: ${put.reason}`, loggedWords(voice, by)],
    controls: [[button('Rota', press('rota-today', {})), undoButton(put.entryId)]],
  };
}

export function handOverCard(
  voice: Voice,
  by: string,
  over: {
    readonly chore: Chore;
    readonly targets: readonly ChoreTarget[];
    readonly to: { readonly name: string; readonly userId: string };
    readonly entryId: number;
  },
): Card {
  return {
    title: `${taskTitle(over.chore, over.targets)}: handed to ${over.to.name}`,
    why: [
      over.targets.length === 1
        ? 'Until it is done the next time'
        : `Until it is done: ${listWords(over.targets.map((target) => taskWords(over.chore, target)))}`,
      loggedWords(voice, by),
    ],
    controls: [[button('Rota', press('rota-today', {})), undoButton(over.entryId)]],
    ...(over.to.name !== by && { mention: [over.to.userId] }),
  };
}
