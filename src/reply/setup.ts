import { type Business, type Line, type Outlet, type Partner, waterIn } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card } from './card.ts';
import { counted, dateWords, figure, moneyWords, someWords, tempWords, type Voice } from './voice.ts';

const weekdayWords = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;
const daysWords = (days: readonly number[]): string => days.map((day) => weekdayWords[day - 1]).join(', ');

export type SetupStep = 'partner' | 'line' | 'tub' | 'done';

/** The one next step while set-up is not whole. */
export const setupNext: Record<SetupStep, string | undefined> = {
  partner: 'Add the people with /setup partner, yourself first',
  line: 'Add your first colour line with /setup line',
  tub: 'Add your tubs with /tub add; "A1-A6" makes six',
  done: undefined,
};

/** The next step on a button, where it takes no more than a form. */
export const stepButtons: Record<SetupStep, readonly Button[]> = {
  partner: [],
  line: [button('Add a line', press('line-form', {}), 'main')],
  tub: [button('Add tubs', press('tubs-form', {}), 'main')],
  done: [],
};

/** A card with the next step of the set-up in words, and on a button where it has none of its own. */
export function withStep(card: Card, step: SetupStep): Card {
  const next = setupNext[step];
  const form = stepButtons[step];
  if (next === undefined) return card;
  return { ...card, next, ...(card.controls === undefined && form.length > 0 && { controls: [form] }) };
}

export type SetupPage = 'business' | 'water' | 'dispatch' | 'terms' | 'posts';

/** One page of the settings as they stand. */
export function setupCard(voice: Voice, business: Business, page: SetupPage, changed: boolean): Card {
  const { title, lines } = pages[page](voice, business);
  return { title: `${title}: ${changed ? 'set' : 'as it stands'}`, why: lines };
}

/** A page of the settings that puts open sales on a day that is not good any more: which, and a button that moves them. */
export function withSalesToMove(card: Card, sales: readonly number[]): Card {
  const named = sales.map((id) => `sale ${id}`);
  return {
    ...card,
    why: [...(card.why ?? []), `Not on a good day now: ${someWords(named, 4)}`],
    next: 'Move the sales, or see /season for each, then tell the buyers',
    controls: [[button(`Move all ${sales.length}`, press('sales-move-all', {}), 'main')]],
  };
}

const pages: Record<SetupPage, (voice: Voice, business: Business) => { title: string; lines: string[] }> = {
  business: (_, b) => ({
    title: 'Business',
    lines: [
      `Name ${b.name}`,
      `Time zone ${b.zone}`,
      b.region === null
        ? 'Region not set: no public holidays are known yet'
        : `Region ${b.region}, for public holidays`,
      `Currency ${b.currency} · units ${b.units}`,
    ],
  }),
  water: (_, b) => ({
    title: 'Water',
    lines: [
      `Source water: nitrate ${figure(b.sourceNitrateMgL)} mg/L · TDS ${orUnknown(b.sourceTdsMgL, ' mg/L')}`,
      `Source water: GH ${orUnknown(b.sourceGhDgh, ' °dGH')} · KH ${orUnknown(b.sourceKhDkh, ' °dKH')}`,
      ...targetLines(b),
      `Nitrate limit ${figure(b.nitrateLimitMgL)} mg/L as NO3`,
      `Changes ${figure(b.changeMinPercent)} to ${figure(b.changeMaxPercent)} % every ${counted(b.changeIntervalDays, 'day')}`,
      `Buckets of ${figure(b.bucketLitres)} L, jugs of ${figure(b.jugLitres)} L${b.altitudeM === 0 ? '' : ` · ${figure(b.altitudeM, 0)} m above the sea`}`,
      `Kit steps ${b.kitStepsMgL.map((step) => figure(step)).join(' ')}`,
      ...(waterIn(b).values.nitrateMgL >= b.nitrateLimitMgL
        ? ['The source water is not under the limit: set target-nitrate to mix it']
        : []),
    ],
  }),
  dispatch: (voice, b) => ({
    title: 'Dispatch',
    lines: [
      `Parcels leave ${daysWords(b.dispatchDays)}`,
      `On the way ${counted(b.transitDays, 'day')}, ${b.slackDays === 0 ? 'no slack' : `slack ${counted(b.slackDays, 'day')}`}`,
      `Night low at least ${tempWords(voice, b.minTempC)}, day high at most ${tempWords(voice, b.maxTempC)}`,
      'Whether your carrier takes live animals is yours to check',
    ],
  }),
  terms: (_, b) => ({
    title: 'Terms',
    lines: [
      b.keepDays === 0
        ? 'An unpaid sale is not kept'
        : `An unpaid sale is kept ${counted(b.keepDays, 'day')}, never past the dispatch morning`,
      `Claims within ${counted(b.claimHours, 'hour')} of delivery${b.claimPhoto ? ', with a photo' : ''}`,
      `Postage ${b.postageOwed ? 'is' : 'is not'} owed back`,
      `Extras so that ${figure(b.fullOrderLevelPercent)} % of orders arrive full`,
      "A buyer's statutory rights stand beside your own terms",
    ],
  }),
  posts: (_, b) => ({
    title: 'Posts',
    lines: [
      `Morning ${b.morningAt} · evening ${b.eveningAt}`,
      `Week ${weekdayWords[b.weeklyOn - 1]} ${b.weeklyAt}`,
      b.channelId === null ? 'In the channel of the set-up' : 'In the channel you chose',
    ],
  }),
};

/** What the prepared water should hold, and the salt for it. */
function targetLines(b: Business): string[] {
  const targets = [
    ...(b.targetGhDgh === null ? [] : [`GH ${figure(b.targetGhDgh)}`]),
    ...(b.targetKhDkh === null ? [] : [`KH ${figure(b.targetKhDkh)}`]),
    ...(b.targetTdsMgL === null ? [] : [`TDS ${figure(b.targetTdsMgL, 0)}`]),
    ...(b.targetNitrateMgL === null ? [] : [`nitrate at most ${figure(b.targetNitrateMgL)}`]),
  ];
  const salt = [
    ...(b.saltGhDgh === null ? [] : [`${figure(b.saltGhDgh, 2)} °dGH`]),
    ...(b.saltKhDkh === null ? [] : [`${figure(b.saltKhDkh, 2)} °dKH`]),
  ];
  return [
    ...(targets.length === 0 ? [] : [`Prepared water: ${targets.join(' · ')}; try it with /mix`]),
    ...(salt.length === 0 ? [] : [`Salt: 1 g in 10 L adds ${salt.join(' and ')}`]),
  ];
}

const orUnknown = (value: number | null, unit: string): string =>
  value === null ? 'not set' : `${figure(value)}${unit}`;

export function lineCard(voice: Voice, { line, added }: { readonly line: Line; readonly added: boolean }): Card {
  return {
    title: `${line.name}: line ${added ? 'added' : 'changed'}`,
    why: [
      line.priceMinor === null ? 'No price yet' : `${moneyWords(voice, line.priceMinor)} each`,
      `Saleable from ${figure(line.saleableMm)} mm · ${counted(line.holdBack, 'breeder')} held back per tub`,
    ],
    ...(line.priceMinor === null && { next: 'Set a price with /setup line when you sell it' }),
  };
}

export function partnerCard(
  voice: Voice,
  { partner, added }: { readonly partner: Partner; readonly added: boolean },
): Card {
  const { name, sharePercent, never, awayFrom, awayTo, owner } = partner;
  return {
    title: `${name}: partner ${added ? 'added' : 'changed'}`,
    why: [
      `Chores: ${sharePercent === null ? 'an equal share' : `${figure(sharePercent)} %`}${owner ? ' · owner' : ''}`,
      ...(never.length > 0 ? [`Never: ${never.join(', ')}`] : []),
      ...(awayFrom === null
        ? []
        : [`Away from ${dateWords(voice, awayFrom)}${awayTo === null ? '' : ` to ${dateWords(voice, awayTo)}`}`]),
    ],
  };
}

export const partnerRemovedCard = (partner: Partner): Card => ({
  title: `${partner.name}: no longer a partner`,
  why: ['What they logged stays'],
});

export function outletCard(voice: Voice, outlet: Outlet, added: boolean): Card {
  return {
    title: `${outlet.name}: outlet ${added ? 'added' : 'changed'}`,
    why: [
      `Takes ${figure(outlet.percent, 2)} % of goods${outlet.onPostage ? ' and postage' : ''}${
        outlet.fixedMinor === 0 ? '' : ` plus ${moneyWords(voice, outlet.fixedMinor)} a sale`
      }`,
    ],
  };
}
