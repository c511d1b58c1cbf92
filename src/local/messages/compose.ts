import { MessageFlags } from 'discord-api-types/v10';
import { FormErrors, refusals } from '../http/refusal.ts';
import { checkMessageLimits, isComponentsV2 } from '../limits/messageLimits.ts';
import type { MessageBody } from '../wire.ts';
import type { MessageOrigin, StoredFile, StoredMessage } from '../world/records.ts';
import type { World } from '../world/world.ts';
import { everyComponent } from './componentTree.ts';
import { storeUploads, type Upload } from './files.ts';
import { pingedUsers } from './mentions.ts';
import { referencedFile } from './presentParts.ts';

/** Flags that a sender may set; the service keeps no others. */
const SETTABLE =
  MessageFlags.SuppressEmbeds |
  MessageFlags.SuppressNotifications |
  MessageFlags.IsComponentsV2 |
  MessageFlags.IsVoiceMessage |
  MessageFlags.Ephemeral;

export interface NewMessage {
  channelId: string;
  authorId: string;
  body: MessageBody;
  uploads: readonly Upload[];
  origin?: MessageOrigin;
  /** Set when only this user may see the message. */
  onlyForUserId?: string;
  /** Where the body lies inside the request, for naming its fields in a refusal. */
  under?: string[];
}

/** Makes and announces a message. @throws ApiRefusal when the service would refuse it */
export function createMessage(world: World, wanted: NewMessage): StoredMessage {
  const { body, uploads } = wanted;
  const flags = (body.flags ?? 0) & SETTABLE;
  checkMessageLimits(body, uploads, isComponentsV2(flags), wanted.under);
  const content = (body.content ?? '').trim();
  if (!isComponentsV2(flags) || (body.components ?? []).length === 0) refuseEmpty(content, body, uploads.length);
  const draft = {
    content,
    embeds: body.embeds ?? [],
    components: body.components ?? [],
    files: storeUploads(world, uploads, body.attachments ?? []),
  };
  checkReferences(draft, wanted.under);
  const message: StoredMessage = {
    id: world.ids.next(),
    channelId: wanted.channelId,
    authorId: wanted.authorId,
    ...draft,
    flags: wanted.onlyForUserId === undefined ? flags & ~MessageFlags.Ephemeral : flags | MessageFlags.Ephemeral,
    createdAtMs: world.clock.nowMs(),
    pingedUserIds: pingedUsers(world, content, draft.components, body.allowed_mentions),
    ...(body.nonce === undefined || body.nonce === null ? {} : { nonce: body.nonce }),
    ...(body.message_reference ? { repliesToId: body.message_reference.message_id } : {}),
    ...(wanted.origin === undefined ? {} : { origin: wanted.origin }),
    ...(wanted.onlyForUserId === undefined ? {} : { onlyForUserId: wanted.onlyForUserId }),
  };
  world.messages.push(message);
  world.bus.tell({ kind: 'messageCreated', message });
  return message;
}

/** The placeholder of a deferred answer, shown until its edit arrives. */
export function createLoadingMessage(world: World, wanted: Omit<NewMessage, 'body' | 'uploads'>): StoredMessage {
  const message: StoredMessage = {
    id: world.ids.next(),
    channelId: wanted.channelId,
    authorId: wanted.authorId,
    content: '',
    embeds: [],
    components: [],
    files: [],
    flags: MessageFlags.Loading | (wanted.onlyForUserId === undefined ? 0 : MessageFlags.Ephemeral),
    createdAtMs: world.clock.nowMs(),
    pingedUserIds: [],
    ...(wanted.origin === undefined ? {} : { origin: wanted.origin }),
    ...(wanted.onlyForUserId === undefined ? {} : { onlyForUserId: wanted.onlyForUserId }),
  };
  world.messages.push(message);
  world.bus.tell({ kind: 'messageCreated', message });
  return message;
}

/** Changes a message in place and announces it. @throws ApiRefusal when the service would refuse the result */
export function editMessage(
  world: World,
  message: StoredMessage,
  body: MessageBody,
  uploads: readonly Upload[],
  under?: string[],
): void {
  const wasLoading = isLoading(message);
  const flags = editedFlags(message, body);
  const isV2 = isComponentsV2(flags);
  checkMessageLimits(body, uploads, isV2, under);
  const content = body.content === undefined ? message.content : (body.content ?? '').trim();
  const draft = {
    content,
    embeds: body.embeds === undefined ? message.embeds : (body.embeds ?? []),
    components: body.components === undefined ? message.components : (body.components ?? []),
    files: editedFiles(world, message, body, uploads),
  };
  if (isV2) refuseMixture(draft, under);
  else refuseEmpty(draft.content, { embeds: draft.embeds, components: draft.components }, draft.files.length);
  checkReferences(draft, under);
  Object.assign(message, draft, { flags });
  const pinged = pingedUsers(world, content, draft.components, body.allowed_mentions);
  if (body.content !== undefined || body.components !== undefined) message.pingedUserIds = pinged;
  if (!wasLoading) message.editedAtMs = world.clock.nowMs();
  world.bus.tell({ kind: 'messageEdited', message });
}

export function deleteMessage(world: World, message: StoredMessage): void {
  world.messages.splice(world.messages.indexOf(message), 1);
  for (const file of message.files) world.fileBytes.delete(file.id);
  world.bus.tell({ kind: 'messageDeleted', message });
}

export function isLoading(message: StoredMessage): boolean {
  return (message.flags & MessageFlags.Loading) !== 0;
}

function editedFlags(message: StoredMessage, body: MessageBody): number {
  const kept = message.flags & ~MessageFlags.Loading;
  if (body.flags === undefined || body.flags === null) return kept;
  const free = MessageFlags.SuppressEmbeds;
  // The newer component form can be switched on by an edit, never off.
  return (kept & ~free) | (body.flags & (free | MessageFlags.IsComponentsV2));
}

function editedFiles(
  world: World,
  message: StoredMessage,
  body: MessageBody,
  uploads: readonly Upload[],
): StoredFile[] {
  const listed = body.attachments;
  const kept = listed ? message.files.filter((file) => listed.some((entry) => entry.id === file.id)) : message.files;
  for (const file of message.files) if (!kept.includes(file)) world.fileBytes.delete(file.id);
  return [...kept, ...storeUploads(world, uploads, listed ?? [])];
}

function refuseEmpty(content: string, body: MessageBody, fileCount: number): void {
  const hasParts = [body.embeds, body.components, body.sticker_ids].some((part) => (part ?? []).length > 0);
  if (content === '' && !hasParts && !body.poll && fileCount === 0) throw refusals.emptyMessage();
}

function refuseMixture(draft: Pick<StoredMessage, 'content' | 'embeds' | 'components'>, under: string[] = []): void {
  if (draft.components.length === 0) throw refusals.emptyMessage();
  const errors = new FormErrors();
  for (const field of ['content', 'embeds'] as const) {
    if (draft[field].length > 0)
      errors.add(
        [...under, field],
        'MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2',
        `The '${field}' field cannot be used when using MessageFlags.IS_COMPONENTS_V2`,
      );
  }
  errors.refuseIfAny();
}

/** Every `attachment://` reference must name a file of the message. */
function checkReferences(draft: Pick<StoredMessage, 'embeds' | 'components' | 'files'>, under: string[] = []): void {
  const errors = new FormErrors();
  const check = (url: string | null | undefined, field: string) => {
    if (url?.startsWith('attachment://') && referencedFile(draft, url) === undefined)
      errors.add([...under, field], 'ATTACHMENT_NOT_FOUND', `The referenced attachment was not found: ${url}`);
  };
  for (const embed of draft.embeds) for (const part of [embed.image, embed.thumbnail]) check(part?.url, 'embeds');
  for (const component of everyComponent(draft.components)) {
    const urls = [component.media?.url, component.file?.url, ...(component.items ?? []).map((item) => item.media.url)];
    for (const url of urls) check(url, 'components');
  }
  errors.refuseIfAny();
}
