import { MessageFlags } from 'discord-api-types/v10';
import { FormErrors } from '../http/refusal.ts';
import type { MessageBody, WireAllowedMentions } from '../wire.ts';
import { checkComponents } from './componentLimits.ts';
import { checkEmbeds } from './embedLimits.ts';

/** The service's documentation says 2000, though its schemas let bots pass 4000. */
export const CONTENT_CHARACTERS = 2000;
export const FILES_PER_MESSAGE = 10;
/** Bytes of one file, unless a server has been granted more. */
export const FILE_BYTES = 10 * 1024 * 1024;

interface Upload {
  filename: string;
  bytes: Uint8Array;
}

/**
 * The documented rules for a message body that the published schemas lack.
 * @param isV2 whether the message is, after this request, in the newer component form
 * @throws ApiRefusal 50035
 */
export function checkMessageLimits(
  body: MessageBody,
  files: readonly Upload[],
  isV2: boolean,
  under: string[] = [],
): void {
  const errors = new FormErrors();
  if ((body.content ?? '').length > CONTENT_CHARACTERS)
    errors.add([...under, 'content'], 'BASE_TYPE_MAX_LENGTH', `Must be ${CONTENT_CHARACTERS} or fewer in length.`);
  checkEmbeds(body.embeds ?? [], [...under, 'embeds'], errors);
  checkComponents(body.components ?? [], isV2, [...under, 'components'], errors);
  if (isV2) checkExclusivity(body, under, errors);
  if (body.allowed_mentions) checkMentions(body.allowed_mentions, [...under, 'allowed_mentions'], errors);
  checkFiles(files, under, errors);
  if (body.enforce_nonce && (body.nonce === undefined || body.nonce === null))
    errors.add([...under, 'nonce'], 'BASE_TYPE_REQUIRED', 'A nonce is required for it to be enforced');
  errors.refuseIfAny();
}

function checkExclusivity(body: MessageBody, under: string[], errors: FormErrors): void {
  const used = {
    content: (body.content ?? '') !== '',
    embeds: (body.embeds ?? []).length > 0,
    poll: Boolean(body.poll),
    sticker_ids: (body.sticker_ids ?? []).length > 0,
  };
  for (const [field, isUsed] of Object.entries(used)) {
    if (isUsed)
      errors.add(
        [...under, field],
        'MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2',
        `The '${field}' field cannot be used when using MessageFlags.IS_COMPONENTS_V2`,
      );
  }
}

function checkMentions(mentions: WireAllowedMentions, path: string[], errors: FormErrors): void {
  for (const kind of ['users', 'roles'] as const) {
    if (mentions.parse?.includes(kind) && (mentions[kind] ?? []).length > 0)
      errors.add(
        [...path, 'parse'],
        'MESSAGE_ALLOWED_MENTIONS_PARSE_EXCLUSIVE',
        `parse:["${kind}"] and ${kind}: [ids...] are mutually exclusive.`,
      );
  }
}

function checkFiles(files: readonly Upload[], under: string[], errors: FormErrors): void {
  if (files.length > FILES_PER_MESSAGE)
    errors.add([...under, 'files'], 'BASE_TYPE_MAX_LENGTH', `Must be ${FILES_PER_MESSAGE} or fewer in length.`);
  files.forEach((file, index) => {
    if (file.bytes.byteLength > FILE_BYTES)
      errors.add([...under, 'files', index], 'FILE_SIZE_EXCEEDED', `File size exceeds ${FILE_BYTES} bytes.`);
  });
}

/** Whether a message's flags say that it is in the newer component form. */
export function isComponentsV2(flags: number): boolean {
  return (flags & MessageFlags.IsComponentsV2) !== 0;
}
