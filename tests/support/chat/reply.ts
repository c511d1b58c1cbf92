import type { Component, Message, Modal, Outcome } from './wireReply.ts';

/** A button or a select on a message. */
export interface Control {
  kind: 'button' | 'select' | 'link';
  /** The words on a button, the placeholder of a select. */
  label: string;
  customId: string;
  isDisabled: boolean;
  /** The labels of a select's entries. */
  options: string[];
}

export interface FormField {
  label: string;
  customId: string;
  value: string;
  isRequired: boolean;
}

export interface Form {
  title: string;
  customId: string;
  fields: FormField[];
}

/** What somebody sees after doing something in the channel. */
export interface Reply {
  interactionId: string;
  kind: Outcome['kind'];
  /** Why nothing came. */
  failure?: string;
  /** All text of the message in reading order: content, embeds, text displays; empty when there is no message. */
  text: string;
  controls: Control[];
  ephemeral: boolean;
  message?: Message;
  /** Addresses of all pictures and files that the message shows. */
  files: string[];
  followUps: ShownMessage[];
  form?: Form;
  choices: { name: string; value: string | number }[];
}

export interface ShownMessage {
  text: string;
  controls: Control[];
  ephemeral: boolean;
  message: Message;
  files: string[];
}

const BUTTON = 2;
const SELECTS = [3, 5, 6, 7, 8];

export function readOutcome(outcome: Outcome): Reply {
  const { message, modal, failure } = outcome;
  const shown = message === undefined ? undefined : readMessage(message);
  return {
    interactionId: outcome.interactionId,
    kind: outcome.kind,
    text: shown?.text ?? '',
    controls: shown?.controls ?? [],
    files: shown?.files ?? [],
    ephemeral: outcome.isEphemeral,
    followUps: outcome.followUps.map(readMessage),
    choices: outcome.choices ?? [],
    ...(failure === undefined ? {} : { failure }),
    ...(message === undefined ? {} : { message }),
    ...(modal === undefined ? {} : { form: readForm(modal) }),
  };
}

export function readMessage(message: Message): ShownMessage {
  return {
    text: textOf(message),
    controls: everyComponent(message.components).flatMap(readControl),
    ephemeral: message.local.isEphemeral,
    message,
    files: filesOf(message),
  };
}

function everyComponent(components: Component[]): Component[] {
  return components.flatMap((component) => [
    component,
    ...everyComponent(component.components ?? []),
    ...(component.accessory === undefined ? [] : everyComponent([component.accessory])),
  ]);
}

function textOf(message: Message): string {
  const embeds = message.embeds.flatMap((embed) => [
    embed.author?.name,
    embed.title,
    embed.description,
    ...(embed.fields ?? []).flatMap((field) => [field.name, field.value]),
    embed.footer?.text,
  ]);
  const displays = everyComponent(message.components).map((component) => component.content);
  return [message.content, ...embeds, ...displays].filter((part) => part).join('\n');
}

function readControl(component: Component): Control[] {
  const isSelect = SELECTS.includes(component.type);
  if (component.type !== BUTTON && !isSelect) return [];
  return [
    {
      kind: isSelect ? 'select' : component.url ? 'link' : 'button',
      label: component.label ?? component.placeholder ?? '',
      customId: component.custom_id ?? '',
      isDisabled: component.disabled ?? false,
      options: (component.options ?? []).map((option) => option.label),
    },
  ];
}

function filesOf(message: Message): string[] {
  const inComponents = everyComponent(message.components).flatMap((component) => [
    ...(component.items ?? []).map((item) => item.media.url),
    component.media?.url,
    component.file?.url,
  ]);
  const inEmbeds = message.embeds.map((embed) => embed.image?.url);
  const attached = message.attachments.map((attachment) => attachment.url);
  const all = [...attached, ...inEmbeds, ...inComponents].filter((url): url is string => url !== undefined);
  return [...new Set(all)];
}

function readForm(modal: Modal): Form {
  const fields = modal.components.flatMap((top) => {
    const inputs = top.component === undefined ? (top.components ?? []) : [top.component];
    return inputs.map((input) => ({
      label: top.label ?? input.label ?? '',
      customId: input.custom_id ?? '',
      value: input.value ?? '',
      isRequired: input.required ?? true,
    }));
  });
  return { title: modal.title, customId: modal.custom_id, fields };
}
