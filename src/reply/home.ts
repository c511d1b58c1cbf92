import type { Tub } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card, type ControlRow } from './card.ts';
import { type SetupStep, stepButtons, withStep } from './setup.ts';
import { counted } from './voice.ts';

/** The way in on the phone. */
export function homeCard(
  step: SetupStep,
  today: { readonly changesDue: number; readonly choresDue: number; readonly parcels: number },
  knowsHolidays: boolean,
): Card {
  const busy = [
    ...(today.changesDue > 0 ? [counted(today.changesDue, 'change')] : []),
    ...(today.parcels > 0 ? [counted(today.parcels, 'parcel')] : []),
    ...(today.choresDue > 0 ? [counted(today.choresDue, today.changesDue > 0 ? 'other' : 'chore')] : []),
  ];
  const card: Card = {
    title:
      step === 'done'
        ? busy.length === 0
          ? 'Nothing to do today'
          : `Today: ${busy.join(', ')}`
        : 'Berried: set-up is not whole yet',
    why:
      step === 'done'
        ? [
            ...(knowsHolidays ? [] : ['No public holidays are known: set your region with /setup business']),
            'Tap, or type / for every command',
          ]
        : ['Only the people, a line and the tubs must be typed', 'Everything else has a default: see /help setup'],
    controls: homeControls(step),
  };
  return withStep(card, step);
}

const homeControls = (step: SetupStep): readonly ControlRow[] => [
  [
    ...stepButtons[step],
    button('Log a reading', press('pick-tub', { purpose: 'reading' }), 'main'),
    button('Next change', press('change-plan', {})),
    button('Stock', press('stock', {})),
  ],
  [
    button('New sale', press('sale-form', {})),
    button('Pack', press('pack', {})),
    button('Undo', press('undo-last', {})),
  ],
];

/** What picking a tub leads to. */
export const purposes = { reading: 'Log a reading of', count: 'Count' } as const;
export type Purpose = keyof typeof purposes;

/** A tub to choose: at most 25 a list and two lists, else the rack first. */
export function pickTubCard(tubs: readonly Tub[], purpose: Purpose): Card {
  const [first] = tubs;
  if (first === undefined) return { title: 'No tubs yet', next: 'Add them first', controls: [stepButtons.tub] };
  const racks = [...new Set(tubs.map(({ rack }) => rack))];
  if (tubs.length > 50 && racks.length > 1) {
    return {
      title: 'Which rack?',
      controls: [
        [
          {
            kind: 'select',
            placeholder: 'Rack',
            press: press('pick-rack', { purpose }),
            options: racks.slice(0, 25).map((rack) => ({ label: rack, value: rack })),
          },
        ],
      ],
    };
  }
  const lists: ControlRow[] = [];
  for (let from = 0; from < Math.min(tubs.length, 100); from += 25) {
    const part = tubs.slice(from, from + 25);
    lists.push([
      {
        kind: 'select',
        placeholder: tubs.length > 25 ? `${part[0]?.name} to ${part.at(-1)?.name}` : 'Tub',
        press: press('picked-tub', { purpose, from }),
        options: part.map(({ id, name, lineName }) => ({ label: name, value: String(id), description: lineName })),
      },
    ]);
  }
  return { title: `${purposes[purpose]} which tub?`, controls: lists };
}
