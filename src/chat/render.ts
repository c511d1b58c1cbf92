import {
  type APIActionRowComponent,
  type APIButtonComponentWithCustomId,
  type APIComponentInMessageActionRow,
  type APIStringSelectComponent,
  ButtonStyle,
  ComponentType,
  type MessageMentionOptions,
} from 'discord.js';
import { chartAlt, chartPng } from '../charts/index.ts';
import { type Button, type Card, type ControlRow, customIdOf, type Select } from '../reply/index.ts';
import { contentOf } from './content.ts';
import { clipped, limits } from './limits.ts';

type Row = APIActionRowComponent<APIComponentInMessageActionRow>;

/** A card as the service's message; every part is always there, so that an update leaves nothing of what stood before. */
export interface RenderedMessage {
  readonly content: string;
  readonly components: Row[];
  readonly files: RenderedFile[];
  readonly allowedMentions: MessageMentionOptions;
}

interface RenderedFile {
  readonly attachment: Buffer;
  readonly name: string;
  /** What a picture shows, for those who do not see it. */
  readonly description?: string;
}

/**
 * Turns a card with all that goes along into a message: `render`, and the chart drawn. The first drawing loads its libraries and may
 * take a second or more; an interaction is acknowledged before it.
 */
export async function renderWhole(card: Card, postKey?: string): Promise<RenderedMessage> {
  const message = render(card, postKey);
  if (card.chart === undefined) return message;
  const picture = { attachment: await chartPng(card.chart), name: 'chart.png', description: chartAlt(card.chart) };
  return { ...message, files: [...message.files, picture] };
}

/**
 * Turns a card's words and controls into a message inside every limit of the service. The words are plain content, so that the first line is the
 * phone's notification.
 * @param postKey key that the first control carries, where the card is a scheduled post
 */
export function render(card: Card, postKey?: string): RenderedMessage {
  const mention = [...new Set(card.mention ?? [])];
  const called = mention.map((userId) => `<@${userId}>`);
  return {
    content: contentOf(card, called.length === 0 ? [] : [called.join(' ')]),
    components: rowsOf(card.controls ?? [], postKey),
    files: filesByMessage(card)[0] ?? [],
    allowedMentions: { parse: [], users: mention },
  };
}

/** The files of a card, message by message, as many to each as the service takes: the first go with the words, the others follow. */
export function filesByMessage({ files = [] }: Card): RenderedFile[][] {
  const messages: RenderedFile[][] = [];
  let bytes = 0;
  for (const { name, text } of files) {
    const attachment = Buffer.from(text, 'utf8');
    const last = messages.at(-1);
    const fits = last !== undefined && last.length < limits.files && bytes + attachment.length <= limits.fileBytes;
    bytes = attachment.length + (fits ? bytes : 0);
    if (fits) last.push({ attachment, name });
    else messages.push([{ attachment, name }]);
  }
  return messages;
}

/** Rows of controls: a row of more than five buttons is broken, a control that is there already is left out, as are rows past the fifth. */
function rowsOf(controls: readonly ControlRow[], postKey: string | undefined): Row[] {
  const taken = new Set<string>();
  let isFirst = true;
  const freshId = ({ press }: Button | Select): string | undefined => {
    const plain = customIdOf(press);
    if (taken.has(plain)) return undefined;
    taken.add(plain);
    const id = isFirst && postKey !== undefined ? customIdOf(press, postKey) : plain;
    isFirst = false;
    return id;
  };
  const rows: Row[] = [];
  for (const controlRow of controls) {
    const components = controlRow.flatMap((control) => componentOf(control, freshId));
    for (let from = 0; from < components.length; from += limits.buttonsPerRow) {
      rows.push({ type: ComponentType.ActionRow, components: components.slice(from, from + limits.buttonsPerRow) });
    }
  }
  return rows.slice(0, limits.rows);
}

function componentOf(
  control: Button | Select,
  freshId: (control: Button | Select) => string | undefined,
): APIComponentInMessageActionRow[] {
  if (control.kind === 'select' && control.options.length === 0) return [];
  const customId = freshId(control);
  if (customId === undefined) return [];
  return [control.kind === 'button' ? buttonOf(control, customId) : selectOf(control, customId)];
}

const styles = { main: ButtonStyle.Primary, plain: ButtonStyle.Secondary, danger: ButtonStyle.Danger } as const;

const buttonOf = (button: Button, customId: string): APIButtonComponentWithCustomId => ({
  type: ComponentType.Button,
  style: styles[button.tone ?? 'plain'],
  label: clipped(button.label, limits.buttonLabel),
  custom_id: customId,
});

function selectOf(select: Select, customId: string): APIStringSelectComponent {
  const byValue = new Map(select.options.map((option) => [option.value, option]));
  const options = [...byValue.values()].slice(0, limits.selectOptions).map(({ label, value, description }) => ({
    label: clipped(label, limits.selectText),
    value,
    ...(description === undefined ? {} : { description: clipped(description, limits.selectText) }),
  }));
  return {
    type: ComponentType.StringSelect,
    custom_id: customId,
    placeholder: clipped(select.placeholder, limits.selectPlaceholder),
    min_values: 1,
    max_values: Math.min(select.max ?? 1, options.length),
    options,
  };
}
