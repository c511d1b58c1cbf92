import { press } from './acts.ts';
import type { Card } from './card.ts';

/** What `/help topic` explains, in the order of the list. */
export const helpTopics = {
  setup: [
    'Set-up',
    [
      '/setup partner: the people; the first one is the owner',
      '/setup line: a colour line, price, breeders held back per tub',
      '/tub add: one tub or a range, "A1-A6"; role apart: not for sale',
      '/setup business: time zone, region for holidays, currency, units',
      '/setup water, dispatch, terms, posts, outlet: all have defaults',
    ],
  ],
  water: [
    'Water',
    [
      '/reading log: judged at once · /reading sheet: a rack in one form',
      '/change plan: litres for each tub · /change log: the planned one',
      '/topup: evaporation, not a change · /mix: new water to a target',
      'Dechlorinate; match within 2 °C; copper and fish medicines kill shrimp',
      'Husbandry help, not veterinary advice',
    ],
  ],
  animals: [
    'Animals',
    [
      '/count log: animals in a tub · /count passes: by netting in passes',
      '/loss: found dead · /trouble: first aid, two questions',
      '/move: between tubs · /hold: off sale until a day',
      '/stock: what may be promised',
      'Free: what each tub has above its breeders, less what is promised',
      'Never release animals, plants or water outdoors',
      'Disinfect nets between systems',
    ],
  ],
  forecast: [
    'Forecast',
    [
      '/forecast: a line by month, 80 % range; what it bears a week',
      'Bears: 90 % sure of the breeders and a month of sales (20 at least)',
      'As now: sent and promised in the last 8 open weeks, with extras',
      'Effective 4FM/(F+M): 50 through the closed time, else 16 weeks',
      'Over-dense: over 5 a litre if nothing is taken from the tub',
      'Published: eggs, growth 24–32 °C; sexes 20–26 °C; broods 15–23 mm',
      'Assumed: eggs and growth in colder water, deaths, rests, crowding',
    ],
  ],
  sales: [
    'Sales',
    [
      '/sale add "20 jade, 10 snow + 2 moss": reserves animals and extras',
      '/sale paid, list, show, edit, cancel · /goods: moss, boxes, bags',
      '/waiting: who waits for a line, and who is next',
      "/sale forget: erases a buyer's data for good, keeps the books",
      '/claim open, settle · /claim record: how animals arrived, and its cost',
      'Only paid sales are on the packing list',
      "A buyer's statutory rights stand beside your terms",
      'Licences for selling animals are yours to check',
    ],
  ],
  dispatch: [
    'Dispatch',
    [
      '/dispatch check: may a parcel leave that day, and if not, when',
      '/dispatch day: the packing list · /dispatch sent · /dispatch arrived',
      '/dispatch weather: a forecast you looked up · /season: closed windows',
      '/pack: bags, water and safe hours for a number of animals',
      'Heat packs never touch the bag; no air into one closed for days',
      "Carriers' and local rules on live animals are yours to check",
    ],
  ],
  money: [
    'Money',
    [
      '/cost: money out; with a tub its line bears it, else all share it',
      '/money: a month by line, "2026" a year; net per ten, litre, hour',
      '/export: the books as CSV, for an owner and the asker alone',
      '/setup outlet: what a selling place takes, from then on',
      'What must be told for tax, and how long kept, is yours to find out',
    ],
  ],
  chores: [
    'Chores',
    [
      '/rota today, week: who does what · /rota done, later, hand-over',
      'Start the round, under Today and the morning post: tub by tub',
      '/chore add, edit, list: days, minutes, season, what a chore hangs on',
      'What is logged ticks its chore: a change, a reading, a top-up',
      '/setup partner away-from: both away at once makes a cover card',
      'Unplug before hands go in; drip loop on every cable; cover cuts',
    ],
  ],
} as const satisfies Record<string, readonly [string, readonly string[]]>;

export type HelpTopic = keyof typeof helpTopics;

export function helpCard(topic: HelpTopic): Card {
  const [title, why] = helpTopics[topic];
  return { title: `Help: ${title}`, why, controls: [[topicSelect]] };
}

const topicSelect = {
  kind: 'select',
  placeholder: 'Help on',
  press: press('help-topic', {}),
  options: Object.entries(helpTopics).map(([value, [label]]) => ({ label, value })),
} as const;
