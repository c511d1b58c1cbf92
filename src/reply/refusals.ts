import { type AmountName, mostTubName, type Noun, type Refusal } from '../domain/index.ts';
import type { Card } from './card.ts';
import { countRefusal } from './countRefusals.ts';
import { cut } from './cut.ts';
import { forecastRefusal } from './forecastRefusals.ts';
import { moneyRefusal } from './moneyRefusals.ts';
import { rotaRefusal } from './rotaRefusals.ts';
import { saleRefusal } from './saleRefusals.ts';
import { dateWords, figure, listWords, litresWords, momentWords, sinceWords, tempWords, type Voice } from './voice.ts';
import { waitingRefusal } from './waiting.ts';
import { waterRefusal } from './waterRefusals.ts';

export type { Refusal };

const nounWords: Record<Noun, { readonly one: string; readonly hint: string }> = {
  tub: { one: 'tub', hint: 'See /tub list, or add it with /tub add' },
  line: { one: 'line', hint: 'Add it with /setup line' },
  sale: { one: 'sale', hint: 'See /sale list' },
  goods: { one: 'goods', hint: 'Add them with /goods' },
  outlet: { one: 'outlet', hint: 'Add it with /setup outlet' },
  chore: { one: 'chore', hint: 'See /chore list' },
  partner: { one: 'partner', hint: 'Add them with /setup partner' },
  window: { one: 'closed window', hint: 'See /season' },
  entry: { one: 'entry', hint: 'Choose one from the list under /undo' },
  buyer: { one: 'buyer', hint: 'See /sale list' },
  area: { one: 'area', hint: 'Name the place in a few words' },
  rack: { one: 'rack', hint: 'Racks are named with /tub add and /tub edit' },
};

/** What was typed, short enough for a first line. */
const inTitle = (typed: string): string => (typed.length > 16 ? `${typed.slice(0, 15)}…` : typed);

/** The words of a refusal: what is wrong, what was understood, what to do. A kind without words does not compile. */
export function refusalCard(voice: Voice, refusal: Refusal): Card {
  switch (refusal.kind) {
    case 'unknown': {
      const { one, hint } = nounWords[refusal.noun];
      const { near } = refusal;
      return {
        title: `Not logged: no ${one} called "${inTitle(refusal.typed)}"`,
        ...(near.length > 0 && { why: [`Near it: ${listWords(near, 'or')}`] }),
        next: near.length > 0 ? 'Take one of these, or choose from the list' : hint,
        offers: near.map((name) => ({ label: cut(name), instead: { typed: refusal.typed, name }, patch: {} })),
      };
    }
    case 'ambiguous':
      return {
        title: `Not logged: which "${inTitle(refusal.typed)}"?`,
        why: [`It could be ${listWords(refusal.near, 'or')}`],
        next: `Choose one from the list as you type`,
      };
    case 'name-taken':
      return {
        title: `Not logged: ${refusal.name} is there already`,
        why: [`A ${nounWords[refusal.noun].one} of that name is in use`],
        next: 'Give it another name',
      };
    case 'bad-name':
      return {
        title: 'Not logged: that name does not work',
        why: [
          `Understood: "${cut(refusal.typed)}"`,
          `A name has 1 to ${refusal.noun === 'tub' ? mostTubName : 30} characters, with a letter or a digit`,
        ],
        next: 'Type a shorter, plain name',
      };
    case 'bad-range':
      return {
        title: 'Not logged: that range does not work',
        why: [`Understood: "${cut(refusal.typed)}"`, `A range goes up, and names at most ${refusal.most} tubs at once`],
        next: 'Write it like A1-A6',
      };
    case 'nothing-given':
      return { title: 'Not logged: nothing to log', next: `Give ${refusal.what}` };
    case 'bad-words':
      return {
        title: `Not logged: ${wordsWanted[refusal.what]} not understood`,
        why: [`Typed: "${cut(refusal.typed)}"`],
        next: `Write it like ${refusal.example}`,
      };
    case 'no-such-date':
      return {
        title: `Not logged: there is no ${inTitle(refusal.typed)}`,
        why: ['No calendar has that date'],
        next: 'Check the day and the month',
      };
    case 'impossible-amount':
      return impossibleAmount(voice, refusal);
    case 'in-the-future':
      return {
        title: `Not logged: ${momentWords(voice, refusal.at)} is still to come`,
        why: [`It is ${momentWords(voice, voice.now)} now`],
        next: 'Log it when it is done',
      };
    case 'too-long-ago':
      return {
        title: `Not logged: ${momentWords(voice, refusal.at)} is too long ago`,
        why: [`Entries begin on ${dateWords(voice, refusal.since)}`],
        next: 'Check the date',
      };
    case 'past-day':
      return {
        title: `Not logged: ${dateWords(voice, refusal.day)} is past`,
        why: [`Today is ${dateWords(voice, refusal.today)}`],
        next: 'Choose today or a later day',
      };
    case 'not-held':
      return { title: `${refusal.tub} is already on sale`, why: ['Nothing was logged'] };
    case 'nothing-to-undo':
      return { title: 'Nothing of yours to undo', next: 'Choose an entry from the list under /undo' };
    case 'voided-already':
      return {
        title: 'That was undone already',
        why: [refusal.summary, `undone by ${refusal.by} ${momentWords(voice, refusal.at)}`],
      };
    case 'others-rest-on-it':
      return {
        title: 'Not undone: later entries rest on it',
        why: [refusal.summary, ...refusal.later.slice(0, 3).map((summary) => `Later: ${summary}`)],
        next: 'Undo the later ones first',
      };
    case 'not-yours':
      return {
        title: `Not undone: ${refusal.by} logged that`,
        why: [refusal.summary],
        next: `Ask ${refusal.by}, or the owner, to undo it`,
      };
    case 'owner-only':
      return { title: `Only an owner may ${refusal.what}`, next: 'Ask the partner who is marked as owner' };
    case 'last-owner':
      return { title: `Not logged: ${refusal.name} is the only owner`, next: 'Make the other partner an owner first' };
    case 'not-a-person':
      return { title: `Not logged: ${refusal.name} is a program`, next: 'Choose a person' };
    case 'photo-not-kept':
      return { title: 'The photo could not be kept', why: [refusal.cause], next: 'Send it again' };
    case 'clock-back':
      return {
        title: 'The clock only goes forward',
        why: [`It is ${momentWords(voice, refusal.now)}; you asked for ${momentWords(voice, refusal.to)}`],
        next: 'Give a later moment',
      };
    case 'tub-retired':
      return {
        title: `Not logged: ${refusal.tub} is retired`,
        why: [`Since ${sinceWords(voice, refusal.at)}`],
        next: 'Use another tub, or add a new one with /tub add',
      };
    case 'tub-in-use':
      return {
        title: `Not retired: ${refusal.tub} holds animals`,
        why: [`About ${refusal.saleable} saleable by the counts`],
        next: 'Move them with /move, or count the tub at 0, then retire it',
      };
    case 'same-tub':
      return { title: `Not logged: ${refusal.tub} twice`, next: 'Name two different tubs' };
    case 'too-few-there':
      return {
        title: `Not logged: ${refusal.tub} holds ${refusal.there} at most`,
        why: [`${refusal.number} were typed; it was counted ${sinceWords(voice, refusal.countedAt)}`],
        next: `Count ${refusal.tub} again if there are more`,
      };
    case 'more-than-the-tub':
      return {
        title: `Not logged: ${refusal.tub} holds ${litresWords(voice, refusal.netLitres)}`,
        why: [`${litresWords(voice, refusal.litres)} were typed; net is without gravel and gap`],
        next: 'Check the litres, or the tub with /tub edit',
      };
    case 'ask-mix-lines':
      return {
        title: `Stop: ${refusal.to} is ${refusal.toLine}`,
        why: [
          `${refusal.number} ${refusal.fromLine} from ${refusal.from} would mix two lines`,
          'One female in the wrong tub is enough to lose a line',
        ],
        next: 'Check the tub names',
        offers: [{ label: 'Mix them all the same', patch: { mix: true }, tone: 'danger' }],
      };
    case 'ask-relabel':
      return {
        title: `Stop: ${refusal.tub} holds ${refusal.saleable} ${refusal.from}`,
        why: [`As ${refusal.to} they would be sold as ${refusal.to}`, 'Not changed yet'],
        next: 'Move them out with /move first, or count the tub at 0',
        offers: [{ label: cut(`They are ${refusal.to}`), patch: { sure: true }, tone: 'danger' }],
      };
    case 'ask-many':
      return {
        title: `Not logged yet: ${refusal.number} in ${refusal.tub}?`,
        why: [
          `${figure(refusal.number / refusal.litres, 0)} a litre in ${litresWords(voice, refusal.litres)}; 2 to 5 is usual`,
        ],
        next: 'Check the number',
        offers: [{ label: `Yes, ${refusal.number}`, patch: { sure: true } }],
      };
    case 'impossible-water':
    case 'ask-unlikely-water':
    case 'ask-swapped-water':
    case 'ask-changed-already':
    case 'ask-much-changed':
    case 'ask-which-amount':
    case 'change-logged-already':
      return waterRefusal(voice, refusal);
    case 'passes-tell-nothing':
    case 'pass-left-out':
      return countRefusal(refusal);
    case 'done-already':
    case 'nothing-due':
    case 'which-target':
      return rotaRefusal(voice, refusal);
    case 'weekly-impossible':
    case 'not-foreseen':
    case 'none-on-sale':
      return forecastRefusal(voice, refusal);
    case 'ask-cost-twice':
    case 'bad-span':
    case 'buyer-open':
    case 'cannot-undo':
      return moneyRefusal(voice, refusal);
    case 'ask-waiting-already':
      return waitingRefusal(voice, refusal);
    default:
      return saleRefusal(voice, refusal);
  }
}

const wordsWanted: Record<Extract<Refusal, { kind: 'bad-words' }>['what'], string> = {
  when: 'the moment was',
  day: 'the day was',
  'month-day': 'the date was',
  month: 'the month was',
  items: 'the items were',
  time: 'the time was',
  weekdays: 'the days were',
  region: 'the region was',
  'time zone': 'the time zone was',
  currency: 'the currency was',
  'kit steps': 'the kit steps were',
};

const amountWords: Record<AmountName, string> = {
  litres: 'L',
  'net litres': 'L net',
  percent: '%',
  animals: 'animals',
  saleable: 'saleable',
  juveniles: 'juveniles',
  berried: 'berried',
  'pass 1': 'in pass 1',
  'pass 2': 'in pass 2',
  'pass 3': 'in pass 3',
  'pass 4': 'in pass 4',
  pieces: 'pieces',
  price: 'as a price',
  postage: 'as postage',
  amount: 'as an amount',
  'saleable-mm': 'mm as saleable',
  'hold-back': 'held back',
  days: 'days',
  months: 'months',
  minutes: 'minutes',
  interval: 'days between changes',
  share: '% as a share',
  'transit-days': 'days on the way',
  'slack-days': 'days of slack',
  dead: 'dead',
  low: 'as the low',
  high: 'as the high',
  'source-nitrate': 'mg/L at source',
  'source-tds': 'mg/L TDS at source',
  'source-gh': '°dGH at source',
  'source-kh': '°dKH at source',
  'target-gh': '°dGH as target',
  'target-kh': '°dKH as target',
  'target-tds': 'mg/L TDS as target',
  'target-nitrate': 'mg/L nitrate as target',
  'salt-gh': '°dGH a gram of salt',
  'salt-kh': '°dKH a gram of salt',
  bucket: 'L of a bucket',
  jug: 'L of a jug',
  altitude: 'm of height',
  'nitrate-limit': 'mg/L as the limit',
  'keep-days': 'days kept',
  'claim-hours': 'hours for a claim',
  'full-order-level': '% of orders full',
};

function impossibleAmount(voice: Voice, refusal: Extract<Refusal, { kind: 'impossible-amount' }>): Card {
  const { amount, typed, min, max, whole } = refusal;
  const isTemperature = amount === 'low' || amount === 'high';
  const shown = (value: number): string => (isTemperature ? tempWords(voice, value) : figure(value, 2));
  return {
    title: `Not logged: ${shown(typed)} ${amountWords[amount]} cannot be right`,
    why: [`It goes from ${shown(min)} to ${shown(max)}${whole ? ', in whole numbers' : ''}`],
    next: 'Send it again with the right number',
  };
}
