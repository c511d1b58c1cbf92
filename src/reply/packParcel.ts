import type {
  Business,
  CheckStep,
  Instant,
  LocalDay,
  PackingState,
  StepState,
  WaterValueName,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card, type Form } from './card.ts';
import { carriedLines } from './carriedWords.ts';
import { catchWords, type ParcelToPack } from './dispatchDay.ts';
import { parcelBagsWords } from './packWords.ts';
import { itemLine, orderLine } from './saleWords.ts';
import { undoButton } from './undoButton.ts';
import { ageWords, counted, dateWords, figure, listWords, momentWords, tempWords, type Voice } from './voice.ts';
import { valueWords } from './waterWords.ts';

interface SlipWater {
  readonly tub: string;
  readonly values: readonly { readonly name: WaterValueName; readonly value: number; readonly at: Instant }[];
}

export interface PackingParcel {
  readonly day: LocalDay;
  readonly parcel: ParcelToPack;
  readonly toSend: number;
  readonly slip: readonly SlipWater[];
  readonly place: number;
  readonly parcels: number;
  readonly next: number | null;
}

const stepWords: Record<CheckStep, string> = {
  caught: 'caught',
  counted: 'counted',
  again: 'second count',
  stood: 'bags stood, dry',
  slip: 'slip in',
  label: 'label on',
};

const doWords: Record<CheckStep, string> = {
  caught: 'Net the animals as listed',
  counted: 'Count them into the bags, one line a bag',
  again: 'Let the other one count, without being told',
  stood: 'Let the bags stand 10 min and look for leaks',
  slip: 'Put the slip in',
  label: 'Put the label on, this way up',
};

/** A parcel to work on: what goes in, from where, the slip, and what was checked by whom. */
export function packParcelCard(voice: Voice, packing: PackingParcel, entryId: number | null): Card {
  const { parcel, slip, place, parcels } = packing;
  const { sale, catches, short, bags, carried, packed } = parcel;
  const bagWords = parcelBagsWords(voice, bags);
  const open = packed.steps.find(({ done }) => done === null);
  return {
    title: titleOf(packing),
    why: [
      `${place} of ${counted(parcels, 'parcel')} for ${dateWords(voice, packing.day)}`,
      orderLine(sale),
      ...(catches.length > 0 ? [`Catch ${catches.map(catchWords).join(', ')}`] : []),
      ...short.map(({ what, asked, there }) => `Short: ${what} ${asked} needed, ${there} to spare`),
      ...(bagWords === '' ? [] : [`Bags: ${bagWords}`]),
      ...slip.map((water) => `Slip, ${slipWords(voice, water)}`),
      ...carriedLines(voice, carried),
      ...(packed.countedAlone ? ['Both counts are by one of you: let the other one count'] : []),
    ],
    table: packed.steps.map((step) => stepRow(voice, step)),
    ...(open !== undefined && { next: open.miscounted === null ? doWords[open.step] : 'Count once more, both of you' }),
    controls: controlsOf(packing, entryId),
  };
}

function titleOf({ parcel: { sale, packed }, toSend }: PackingParcel): string {
  const wrong = packed.steps.find(({ miscounted }) => miscounted !== null)?.miscounted;
  if (wrong) return `Parcel ${sale.id}: ${wrong.number ?? 0} counted, ${toSend} to send`;
  return isPacked(packed)
    ? `Parcel ${sale.id}: packed, ready to go`
    : `Parcel ${sale.id}: ${packed.done} of ${counted(packed.steps.length, 'check')} done`;
}

export const isPacked = ({ steps, done }: PackingState): boolean => done === steps.length;

function stepRow(voice: Voice, { step, done, miscounted }: StepState): string {
  const said = done ?? miscounted;
  const number = said === null || said.number === null ? '' : ` ${said.number}`;
  const who = said === null ? 'open' : `${said.by} ${momentWords(voice, said.at)}`;
  return `${`${stepWords[step]}${number}`.padEnd(18)} ${who}${miscounted === null ? '' : ', not it'}`.slice(0, 38);
}

function controlsOf({ day, parcel, toSend, next }: PackingParcel, entryId: number | null): Button[][] {
  const { sale, packed, short } = parcel;
  const steps = packed.steps.filter(({ step, done }) => done === null && (step !== 'caught' || short.length === 0));
  const buttons = steps.slice(0, 5).map(({ step }, index) => stepButton(day, sale.id, step, toSend, index === 0));
  return [
    ...(buttons.length > 0 ? [buttons] : []),
    [
      button(`Sent ${sale.id}`, press('pack-sent', { day, sale: sale.id }), isPacked(packed) ? 'main' : 'plain'),
      ...(next === null
        ? []
        : [button(`Next: parcel ${next}`, press('pack-parcel', { day, sale: next, from: 'card' }))]),
      button('Slip text', press('pack-slip', { day, sale: sale.id })),
      button('Packing list', press('pack-day', { day })),
      ...(entryId === null ? [] : [undoButton(entryId)]),
    ],
  ];
}

function stepButton(day: LocalDay, sale: number, step: CheckStep, toSend: number, isNext: boolean): Button {
  const tone = isNext ? 'main' : 'plain';
  if (step === 'again') return button('Second count', press('pack-count', { day, sale }), tone);
  const labels: Record<Exclude<CheckStep, 'again'>, string> = {
    caught: 'Caught',
    counted: `Counted ${toSend}`,
    stood: 'Stood 10 min, dry',
    slip: 'Slip in',
    label: 'Label on',
  };
  return button(labels[step], press('pack-check', { day, sale, step }), tone);
}

/** "A1: 21.5 °C, pH 7.4, GH 8, KH 4, TDS 240 (3 days ago)". */
function slipWords(voice: Voice, { tub, values }: SlipWater): string {
  if (values.length === 0) return `${tub}: no reading of its water yet`;
  const told = values.map(({ name, value }) =>
    name === 'tempC' ? tempWords(voice, value) : `${valueWords[name].name} ${figure(value, 1)}`,
  );
  const oldest = values.map(({ at }) => at).sort()[0];
  return `${tub}: ${told.join(', ')}${oldest === undefined ? '' : ` (${ageWords(voice, oldest)})`}`;
}

/** The second person's count of a parcel: what they counted, without the number to send. */
export const secondCountForm = (day: LocalDay, sale: number): Form => ({
  title: `Second count of parcel ${sale}`,
  press: press('pack-count-send', { day, sale }),
  fields: [{ id: 'number', label: 'Animals in its bags, as you count them', lines: 'one', required: true }],
});

/** What goes on the slip in the box, to copy. */
export function slipTextCard(
  voice: Voice,
  { day, parcel, slip }: PackingParcel,
  terms: Pick<Business, 'claimHours' | 'claimPhoto'>,
): Card {
  const { sale } = parcel;
  return {
    title: `Slip of parcel ${sale.id}, to copy`,
    why: [
      `Packed ${dateWords(voice, day)}: ${listWords(sale.items.map(itemLine))}`,
      ...slip.map((water) => `Our water, ${slipWords(voice, water)}`),
      'Dim the light; float the bag, then match the water slowly',
      `Any dead? Tell us within ${terms.claimHours} h of delivery${terms.claimPhoto ? ', with a photo of the bag' : ''}`,
      'Feed from tomorrow; a shed shell is no dead animal',
      'Never release animals, plants or water outdoors',
    ],
    next: 'Copy it, change it as you like, and put it in the box',
  };
}

/** The parcel is not on the list any more. */
export const notToPackCard = (sale: number): Card => ({
  title: `Parcel ${sale} is not to be packed now`,
  why: ['It was sent, cancelled or moved, or is no longer paid'],
  next: 'Look at the sale as it is now',
  controls: [[button(`Sale ${sale}`, press('sale-show', { sale }), 'main')]],
});
