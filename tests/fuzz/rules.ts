import {
  CreateMessageInteractionCallbackRequestSchema,
  ModalInteractionCallbackRequestSchema,
} from 'discord-api-spec/zod';
import type { Answer } from '../../commands/command.ts';
import { renderForm } from '../../src/chat/form.ts';
import { type RenderedMessage, render } from '../../src/chat/render.ts';
import { ApiRefusal } from '../../src/local/http/refusal.ts';
import { checkMessageLimits } from '../../src/local/limits/messageLimits.ts';
import { checkModalLimits } from '../../src/local/limits/modalLimits.ts';
import { checkAgainstSpec } from '../../src/local/limits/specCheck.ts';
import type { MessageBody, WireModal } from '../../src/local/wire.ts';
import type { Card, Form } from '../../src/reply/index.ts';

/** A title is also a phone's notification. A post names several things in it. */
const mostOf = (title: string): number => (/^(?:Morning|Evening|Week|Season),/.test(title) ? 80 : 60);

/** What no text of the bot holds: values that lost their way. Typed texts never hold them in this spelling. */
const lostValues = /\bundefined\b|\bNaN\b|\bnull\b|\[object|\bInfinity\b|Invalid Date/;

/** How a refusal begins. */
const refusing = /^Not\b/;

export const isRefusal = (answer: Answer): boolean => refusing.test(answer.card?.title ?? '');

/** What an answer does wrong, a line each. */
export function faultsOf(answer: Answer, toForm: boolean): string[] {
  const faults = [answer.card, answer.settle].flatMap((card) => (card === undefined ? [] : cardFaults(card)));
  if (isRefusal(answer) && answer.private !== true) faults.push('a refusal is seen by all');
  if (answer.form !== undefined) {
    faults.push(...formFaults(answer.form));
    if (toForm) faults.push('a form answers a form');
  }
  return faults;
}

export function cardFaults(card: Card): string[] {
  const faults: string[] = [];
  if (card.title.trim() === '') faults.push('a title is empty');
  if (card.title.length > mostOf(card.title)) faults.push(`a title has ${card.title.length} characters: ${card.title}`);
  const lost = textsOf(card).find((text) => lostValues.test(text));
  if (lost !== undefined) faults.push(`a value lost its way: ${lost}`);
  return [...faults, ...refusedBy(() => checkMessage(render(card)))];
}

const textsOf = ({
  title,
  why = [],
  table = [],
  next = '',
  controls = [],
  offers = [],
  files = [],
}: Card): string[] => [
  ...[title, ...why, ...table, next],
  ...offers.map(({ label }) => label),
  ...controls.flatMap((row) =>
    row.flatMap((control) =>
      control.kind === 'button'
        ? [control.label]
        : [control.placeholder, ...control.options.flatMap(({ label, description = '' }) => [label, description])],
    ),
  ),
  ...files.flatMap(({ name, text }) => [name, text]),
];

function checkMessage({ content, components, files, allowedMentions }: RenderedMessage): void {
  const data = {
    content,
    components,
    allowed_mentions: { parse: allowedMentions.parse ?? [], users: allowedMentions.users ?? [] },
  };
  checkAgainstSpec(CreateMessageInteractionCallbackRequestSchema, { type: 4, data });
  const uploads = files.map(({ name, attachment }) => ({ filename: name, bytes: attachment }));
  checkMessageLimits(data as unknown as MessageBody, uploads, false);
}

function formFaults(form: Form): string[] {
  const texts = [form.title, ...form.fields.flatMap(({ label, hint = '', value = '' }) => [label, hint, value])];
  const lost = texts.find((text) => lostValues.test(text));
  return [
    ...(lost === undefined ? [] : [`a value lost its way: ${lost}`]),
    ...refusedBy(() => {
      const data = renderForm(form);
      checkAgainstSpec(ModalInteractionCallbackRequestSchema, { type: 9, data });
      checkModalLimits(data as unknown as WireModal, []);
    }),
  ];
}

/** What the service would say against a body. */
function refusedBy(check: () => void): string[] {
  try {
    check();
    return [];
  } catch (error) {
    if (!(error instanceof ApiRefusal)) throw error;
    return [`the service refuses it: ${JSON.stringify(error.errors)}`];
  }
}
