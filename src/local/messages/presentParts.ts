import { ComponentType } from 'discord-api-types/v10';
import type { JsonObject, WireComponent, WireEmbed } from '../wire.ts';
import type { StoredMessage } from '../world/records.ts';
import type { World } from '../world/world.ts';
import { fileUrl } from './files.ts';

export function presentEmbeds(world: World, message: StoredMessage): JsonObject[] {
  return message.embeds.map((embed) => presentEmbed(world, message, embed));
}

function presentEmbed(world: World, message: StoredMessage, embed: WireEmbed): JsonObject {
  const picture = (part: { url?: string | null } | null | undefined) =>
    part?.url ? presentMedia(world, message, part.url) : undefined;
  return compact({
    type: 'rich',
    title: embed.title,
    description: embed.description,
    url: embed.url,
    color: embed.color,
    timestamp: embed.timestamp,
    author: embed.author?.name
      ? compact({ name: embed.author.name, url: embed.author.url, icon_url: embed.author.icon_url })
      : undefined,
    footer: embed.footer?.text ? compact({ text: embed.footer.text, icon_url: embed.footer.icon_url }) : undefined,
    image: picture(embed.image),
    thumbnail: picture(embed.thumbnail),
    fields: embed.fields?.map((field) => ({ name: field.name, value: field.value, inline: field.inline ?? false })),
  });
}

/** Components as the service gives them back: numbered, with its defaults filled in and references resolved. */
export function presentComponents(world: World, message: StoredMessage): JsonObject[] {
  const taken = new Set<number>();
  let next = 1;
  const number = (component: WireComponent): number => {
    if (component.id) return component.id;
    while (taken.has(next)) next += 1;
    taken.add(next);
    return next;
  };
  const show = (component: WireComponent): JsonObject => {
    const id = number(component);
    return { ...presentOne(world, message, component, show), type: component.type, id };
  };
  collectGivenIds(message.components, taken);
  return message.components.map(show);
}

function collectGivenIds(components: readonly WireComponent[], taken: Set<number>): void {
  for (const component of components) {
    if (component.id) taken.add(component.id);
    collectGivenIds(component.components ?? [], taken);
    if (component.accessory !== undefined) collectGivenIds([component.accessory], taken);
  }
}

function presentOne(
  world: World,
  message: StoredMessage,
  component: WireComponent,
  show: (child: WireComponent) => JsonObject,
): JsonObject {
  const children = component.components?.map(show);
  switch (component.type) {
    case ComponentType.ActionRow:
      return { components: children };
    case ComponentType.Section:
      return compact({ components: children, accessory: component.accessory && show(component.accessory) });
    case ComponentType.Container:
      return {
        accent_color: component.accent_color ?? null,
        components: children,
        spoiler: component.spoiler ?? false,
      };
    case ComponentType.TextDisplay:
      return { content: component.content };
    case ComponentType.Separator:
      return { divider: component.divider ?? true, spacing: component.spacing ?? 1 };
    case ComponentType.Thumbnail:
      return {
        media: presentMedia(world, message, component.media?.url ?? ''),
        description: component.description ?? null,
        spoiler: component.spoiler ?? false,
      };
    case ComponentType.MediaGallery:
      return {
        items: (component.items ?? []).map((item) => ({
          media: presentMedia(world, message, item.media.url),
          description: item.description ?? null,
          spoiler: item.spoiler ?? false,
        })),
      };
    case ComponentType.File: {
      const file = referencedFile(message, component.file?.url ?? '');
      return {
        file: presentMedia(world, message, component.file?.url ?? ''),
        name: file?.filename ?? null,
        size: file?.sizeBytes ?? null,
        spoiler: component.spoiler ?? false,
      };
    }
    case ComponentType.Button:
      return compact({
        style: component.style,
        label: component.label,
        custom_id: component.custom_id,
        url: component.url,
        emoji: component.emoji,
        disabled: component.disabled,
      });
    default:
      return compact({
        custom_id: component.custom_id,
        placeholder: component.placeholder,
        min_values: component.min_values ?? 1,
        max_values: component.max_values ?? 1,
        disabled: component.disabled,
        channel_types: component.channel_types,
        default_values: component.default_values,
        options: component.options?.map((option) => compact({ ...option })),
      });
  }
}

function presentMedia(world: World, message: StoredMessage, reference: string): JsonObject {
  const file = referencedFile(message, reference);
  if (file === undefined) return { url: reference, proxy_url: reference };
  const url = fileUrl(world, file);
  return compact({
    id: file.id,
    url,
    proxy_url: url,
    width: file.widthPx,
    height: file.heightPx,
    content_type: file.contentType,
  });
}

export function referencedFile(message: Pick<StoredMessage, 'files'>, reference: string) {
  if (!reference.startsWith('attachment://')) return undefined;
  const name = decodeURIComponent(reference.slice('attachment://'.length));
  return message.files.find((file) => file.filename === name);
}

/** Leaves out what is not there: the service omits such fields rather than sending null. */
function compact(entries: { [key: string]: unknown }): JsonObject {
  return Object.fromEntries(
    Object.entries(entries).filter(([, value]) => value !== undefined && value !== null),
  ) as JsonObject;
}
