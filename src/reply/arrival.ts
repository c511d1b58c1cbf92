import { type ClaimProposal, minuteMs, msOf, type Sale, type Settlement } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card, type Form } from './card.ts';
import { recordButton } from './claimRecord.ts';
import { undoButton } from './undoButton.ts';
import { counted, dateWords, loggedWords, momentWords, moneyWords, type Voice } from './voice.ts';

/** How a parcel arrived; with more dead than extras, the claim in the same answer. */
export function arrivalCard(
  voice: Voice,
  by: string,
  arrived: {
    readonly sale: Sale;
    readonly proposal: ClaimProposal;
    readonly claimOpened: boolean;
    readonly entryId: number;
  },
): Card {
  const { sale, proposal, claimOpened, entryId } = arrived;
  const { outcome, dead, ordered, sent } = proposal;
  if (ordered === 0) {
    return {
      title: `Parcel ${sale.id}: arrived`,
      why: [loggedWords(voice, by)],
      controls: [[undoButton(entryId)]],
    };
  }
  const alive = `${sent} sent, ${dead} dead, ${outcome.alive} alive`;
  if (outcome.promiseKept) {
    return {
      title: `Parcel ${sale.id}: promise kept, ${ordered} of ${ordered}`,
      why: [
        dead > 0 ? `${alive}; ${reportWords(voice, proposal)}` : `${sent} sent, all alive`,
        ...(dead > 0 ? ['Nothing is owed by your terms; a kind word is ready to copy'] : []),
        loggedWords(voice, by),
      ],
      controls: [
        [
          ...(dead > 0
            ? [
                button('Show the text', press('arrival-text', { sale: sale.id })),
                ...(sale.claim === null ? [button('Refund anyway', press('claim-anyway', { sale: sale.id }))] : []),
              ]
            : []),
          undoButton(entryId),
        ],
      ],
    };
  }
  return {
    title: `Parcel ${sale.id}: ${outcome.owed} short, ${claimOpened ? 'claim opened' : 'claim open'}`,
    why: [`${alive} of ${ordered} ordered`, ...claimLines(voice, proposal), loggedWords(voice, by)],
    ...nextOf(proposal),
    controls: [settleButtons(voice, sale.id, proposal), [textButton(sale.id), undoButton(entryId)]],
  };
}

/** A claim as it stands against the terms, with the ways to answer it. */
export function claimCard(
  voice: Voice,
  by: string,
  {
    sale,
    proposal,
    entryId,
  }: { readonly sale: Sale; readonly proposal: ClaimProposal; readonly entryId: number | null },
): Card {
  const { outcome, dead, ordered, sent } = proposal;
  return {
    title: `Claim on sale ${sale.id}: ${outcome.promiseKept ? 'promise kept' : `${outcome.owed} short`}, ${dead} dead`,
    why: [
      `${sent} sent for ${ordered} ordered, ${outcome.alive} alive`,
      ...claimLines(voice, proposal),
      ...noteLine(sale),
      ...(entryId === null ? [] : [loggedWords(voice, by)]),
    ],
    ...nextOf(proposal),
    controls: [
      settleButtons(voice, sale.id, proposal),
      [textButton(sale.id), ...(entryId === null ? [] : [undoButton(entryId)])],
    ],
  };
}

const textButton = (sale: number): Button => button('Show the text', press('arrival-text', { sale }));

const noteLine = ({ claim }: Sale): string[] => (claim === null || claim.note === null ? [] : [`Note: ${claim.note}`]);

/** What the terms say: the window, the photo, and what the animals cost. */
function claimLines(voice: Voice, proposal: ClaimProposal): string[] {
  const { outcome, photoAsked, photo, refundMinor, pricesKnown, canResend, resendOn, about } = proposal;
  return [
    sentence(reportWords(voice, proposal)),
    ...(photoAsked && !photo ? ['No photo yet; your terms ask for one'] : []),
    ...(outcome.promiseKept ? ['As many arrived as were ordered: nothing is owed by your terms'] : []),
    [
      refundMinor === null
        ? 'no price to refund from'
        : `${moneyWords(voice, refundMinor)} for ${counted(about, 'animal')}`,
      canResend && resendOn !== null
        ? `a resend could leave ${dateWords(voice, resendOn)}`
        : 'not enough free for a resend',
    ].join('; '),
    ...(pricesKnown || refundMinor === null ? [] : ["Not all its prices are known: the animals' part is a guess"]),
  ];
}

const sentence = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

/** "reported 55 min after delivery, with photo"; outside the window it is the partners' choice. */
function reportWords(voice: Voice, proposal: ClaimProposal): string {
  const { reportedAt, deliveredAt, endsAt, inTime, photo } = proposal;
  const withPhoto = photo ? ', with photo' : '';
  if (deliveredAt === null || endsAt === null) {
    return `reported ${momentWords(voice, reportedAt)}${withPhoto}; the delivery is not logged`;
  }
  const minutes = (msOf(reportedAt) - msOf(deliveredAt)) / minuteMs;
  const report = `reported ${durationWords(Math.max(0, minutes))} after delivery${withPhoto}`;
  return inTime === true
    ? report
    : `${report}: outside your stated window (to ${momentWords(voice, endsAt)}), your choice`;
}

/** "55 min", "3 h", "2 days". */
function durationWords(minutes: number): string {
  if (minutes < 90) return `${Math.round(minutes)} min`;
  return minutes < 48 * 60 ? `${Math.round(minutes / 60)} h` : counted(Math.round(minutes / 1440), 'day');
}

function nextOf({ proposed, outcome, photoAsked, photo, inTime }: ClaimProposal): { next?: string } {
  if (outcome.promiseKept) return { next: 'Decline with a kind word, or refund all the same' };
  if (proposed !== null) return { next: proposed === 'resend' ? 'Resend what is short' : 'Refund what is short' };
  if (inTime === true && photoAsked && !photo) return { next: 'Ask the buyer for the photo, then answer' };
  return { next: "Answer it as you see fit; the buyer's statutory rights stand beside your terms" };
}

function settleButtons(voice: Voice, sale: number, proposal: ClaimProposal): Button[] {
  const { refundMinor, canResend, resendOn, proposed } = proposal;
  const tone = (how: Settlement) => (how === proposed ? 'main' : 'plain');
  return [
    ...(refundMinor === null
      ? []
      : [
          button(
            `Refund ${moneyWords(voice, refundMinor)}`,
            press('claim-settle', { sale, how: 'refund' }),
            tone('refund'),
          ),
        ]),
    ...(canResend && resendOn !== null
      ? [button(`Resend ${dateWords(voice, resendOn)}`, press('claim-settle', { sale, how: 'resend' }), tone('resend'))]
      : []),
    button('Decline', press('claim-settle', { sale, how: 'decline' }), tone('decline')),
  ];
}

/** A claim that was answered. */
export function claimSettledCard(
  voice: Voice,
  by: string,
  settled: {
    readonly sale: Sale;
    readonly how: Settlement;
    readonly amountMinor: number;
    readonly resend: Sale | null;
    readonly entryId: number;
  },
): Card {
  const { sale, how, amountMinor, resend, entryId } = settled;
  const titles: Record<Settlement, string> = {
    refund: `Claim on sale ${sale.id}: refund ${moneyWords(voice, amountMinor)}`,
    resend: `Claim on sale ${sale.id}: resend as sale ${resend?.id ?? ''}`,
    decline: `Claim on sale ${sale.id}: declined`,
  };
  const day = resend?.dispatchOn ?? null;
  return {
    title: titles[how],
    why: [
      ...(resend === null
        ? []
        : [
            `${resend.items.map(({ number, name, extras }) => `${number} ${name} + ${extras} extras`).join(', ')}, nothing to pay`,
          ]),
      ...(day === null ? [] : [`Planned for ${dateWords(voice, day)}`]),
      ...noteLine(sale),
      loggedWords(voice, by),
    ],
    next: { refund: 'Send the money and the text', resend: 'Tell the buyer the new day', decline: 'Send the text' }[
      how
    ],
    controls: [
      [
        button('Show the text', press('arrival-text', { sale: sale.id }), 'main'),
        ...(resend === null ? [] : [button(`Show sale ${resend.id}`, press('sale-show', { sale: resend.id }))]),
        recordButton(12, 'way', 'Record'),
        undoButton(entryId),
      ],
    ],
  };
}

/** A form for how a parcel arrived. */
export const arrivedForm = (sale: number): Form => ({
  title: `Parcel ${sale} arrived`,
  press: press('arrived-send', { sale }),
  fields: [
    { id: 'dead', label: 'Found dead', lines: 'one', value: '0', required: true },
    { id: 'delivered', label: 'Delivered', hint: 'today 13:05; empty: just now', lines: 'one', required: false },
  ],
});
