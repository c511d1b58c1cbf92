import { isMeasured, type LocalDay } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card, type ControlRow, type Select } from './card.ts';
import { inOrderOfWeight, nobody, type RotaLine, taskWords } from './rotaWords.ts';
import { counted, figure } from './voice.ts';

/** Which message the ticks stand under: it is made anew after one. */
export const tickPlaces = ['rota', 'morning', 'evening'] as const;
export type TickPlace = (typeof tickPlaces)[number];

/** The service takes 25 choices, and 5 buttons a row. */
const mostChoices = 25;
const mostRacks = 5;

/** A row of racks to tick whole with other buttons beside them, and a list to tick single chores where any is open. */
export function tickRows(
  place: TickPlace,
  day: LocalDay,
  open: readonly RotaLine[],
  beside: readonly Button[],
): ControlRow[] {
  const row = [...rackButtons(place, day, open), ...beside];
  return [...(row.length > 0 ? [row] : []), ...(open.length > 0 ? [[tickSelect(place, day, open)] as const] : [])];
}

function tickSelect(place: TickPlace, day: LocalDay, open: readonly RotaLine[]): Select {
  const shown = inOrderOfWeight(open).slice(0, mostChoices);
  const rest = open.length - shown.length;
  return {
    kind: 'select',
    placeholder: rest > 0 ? `Tick what is done (${rest} more after these)` : 'Tick what is done',
    press: press('rota-ticks', { place, day }),
    options: shown.map((line) => ({
      label: labelOf(line),
      value: `${line.due.chore.id}.${line.tubId ?? ''}`,
      description: [
        line.partner ?? nobody,
        ...(line.lateDays > 0 ? [`${counted(line.lateDays, 'day')} late`] : []),
      ].join(' · '),
    })),
    max: shown.length,
  };
}

function labelOf({ due, litres }: RotaLine): string {
  const task = taskWords(due.chore, due.target);
  return litres === null ? task : `${task}, ${figure(litres)} L`;
}

/** One button a rack that ticks all that is open in it, readings left out: what the kit shows must be logged. */
function rackButtons(place: TickPlace, day: LocalDay, open: readonly RotaLine[]): Button[] {
  const racks = new Map<string, number>();
  for (const { due, tubId } of open) {
    if (due.target.of === 'business' || isMeasured(due.chore) || tubId === null) continue;
    if (!racks.has(due.target.rack)) racks.set(due.target.rack, tubId);
  }
  return [...racks]
    .sort(([a], [b]) => a.localeCompare(b))
    .slice(0, mostRacks)
    .map(([rack, tub]) => button(`${rack} done`, press('rota-rack', { place, day, tub }), 'main'));
}

/** For the one who ticked several at once: how many entries that made, and a way back from a tap on the wrong rack. */
export function tickedTogetherCard(entries: readonly number[]): Card {
  return {
    title: `${entries.length} entries logged`,
    why: ['Only you see this'],
    controls: [
      [
        button(
          `Undo all ${entries.length}`,
          press('undo-together', { from: Math.min(...entries), to: Math.max(...entries) }),
          'danger',
        ),
      ],
    ],
  };
}
