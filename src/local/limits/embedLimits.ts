import type { FieldPath, FormErrors } from '../http/refusal.ts';
import type { WireEmbed } from '../wire.ts';

/** Characters over all embeds of a message: titles, descriptions, field names and values, footers, author names. */
export const EMBED_TOTAL_CHARACTERS = 6000;

const LINK_SCHEMES = ['http:', 'https:'];
const PICTURE_SCHEMES = [...LINK_SCHEMES, 'attachment:'];

/** The documented rules for embeds that the published schemas lack. */
export function checkEmbeds(embeds: WireEmbed[], path: FieldPath, errors: FormErrors): void {
  embeds.forEach((embed, index) => {
    checkOne(embed, [...path, index], errors);
  });
  const total = embeds.reduce((sum, embed) => sum + characters(embed), 0);
  if (total > EMBED_TOTAL_CHARACTERS)
    errors.add(path, 'MAX_EMBED_SIZE_EXCEEDED', `Embed size exceeds maximum size of ${EMBED_TOTAL_CHARACTERS}`);
}

function checkOne(embed: WireEmbed, path: FieldPath, errors: FormErrors): void {
  if (isEmpty(embed)) errors.add([...path, 'description'], 'BASE_TYPE_REQUIRED', 'This field is required');
  embed.fields?.forEach((field, index) => {
    if (field.name.trim() === '')
      errors.add([...path, 'fields', index, 'name'], 'BASE_TYPE_REQUIRED', 'This field is required');
    if (field.value.trim() === '')
      errors.add([...path, 'fields', index, 'value'], 'BASE_TYPE_REQUIRED', 'This field is required');
  });
  checkScheme(embed.url, LINK_SCHEMES, [...path, 'url'], errors);
  checkScheme(embed.image?.url, PICTURE_SCHEMES, [...path, 'image', 'url'], errors);
  checkScheme(embed.thumbnail?.url, PICTURE_SCHEMES, [...path, 'thumbnail', 'url'], errors);
}

function checkScheme(url: string | null | undefined, allowed: string[], path: FieldPath, errors: FormErrors): void {
  if (url === null || url === undefined || url === '') return;
  const scheme = new URL(url).protocol;
  if (!allowed.includes(scheme))
    errors.add(
      path,
      'URL_TYPE_INVALID_SCHEME',
      `Scheme "${scheme}" is not supported. Scheme must be one of ${allowed}.`,
    );
}

function isEmpty(embed: WireEmbed): boolean {
  const texts = [embed.title, embed.description, embed.author?.name, embed.footer?.text];
  const pictures = [embed.image?.url, embed.thumbnail?.url];
  return [...texts, ...pictures].every((part) => !part) && (embed.fields ?? []).length === 0;
}

function characters(embed: WireEmbed): number {
  const fields = (embed.fields ?? []).map((field) => field.name.length + field.value.length);
  const rest = [embed.title, embed.description, embed.author?.name, embed.footer?.text].map(
    (text) => (text ?? '').length,
  );
  return [...fields, ...rest].reduce((sum, length) => sum + length, 0);
}
