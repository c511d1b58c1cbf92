/**
 * The shapes that travel over the wire, as loose as the service itself is: every field that a kind may carry is optional.
 * Bodies reach these types only after the published schemas accepted them.
 */

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json | undefined };
export type JsonObject = { [key: string]: Json | undefined };

export interface WireMedia {
  url: string;
}

export interface WireSelectOption {
  label: string;
  value: string;
  description?: string | null;
  default?: boolean | null;
  emoji?: JsonObject | null;
}

export interface WireComponent {
  type: number;
  id?: number | null;
  custom_id?: string | null;
  style?: number;
  label?: string | null;
  description?: string | null;
  disabled?: boolean | null;
  url?: string | null;
  sku_id?: string | null;
  emoji?: JsonObject | null;
  placeholder?: string | null;
  min_values?: number | null;
  max_values?: number | null;
  options?: WireSelectOption[];
  default_values?: { id: string; type: string }[] | null;
  channel_types?: number[] | null;
  components?: WireComponent[];
  component?: WireComponent;
  accessory?: WireComponent;
  content?: string;
  accent_color?: number | null;
  spoiler?: boolean | null;
  items?: { media: WireMedia; description?: string | null; spoiler?: boolean | null }[];
  media?: WireMedia;
  file?: WireMedia;
  divider?: boolean | null;
  spacing?: number | null;
  value?: string | null;
  required?: boolean | null;
  min_length?: number | null;
  max_length?: number | null;
}

export interface WireEmbed {
  type?: string | null;
  title?: string | null;
  description?: string | null;
  url?: string | null;
  color?: number | null;
  timestamp?: string | null;
  author?: { name?: string | null; url?: string | null; icon_url?: string | null } | null;
  footer?: { text?: string | null; icon_url?: string | null } | null;
  image?: { url?: string | null } | null;
  thumbnail?: { url?: string | null } | null;
  fields?: { name: string; value: string; inline?: boolean | null }[] | null;
}

export interface WireAllowedMentions {
  parse?: string[] | null;
  users?: string[] | null;
  roles?: string[] | null;
  replied_user?: boolean | null;
}

export interface WireAttachment {
  id: string;
  filename?: string | null;
  description?: string | null;
  title?: string | null;
}

/** What creating or editing a message may carry, by whichever route. */
export interface MessageBody {
  content?: string | null;
  embeds?: WireEmbed[] | null;
  components?: WireComponent[] | null;
  attachments?: WireAttachment[] | null;
  allowed_mentions?: WireAllowedMentions | null;
  flags?: number | null;
  nonce?: string | number | null;
  enforce_nonce?: boolean | null;
  message_reference?: { message_id: string } | null;
  sticker_ids?: string[] | null;
  poll?: JsonObject | null;
  tts?: boolean | null;
}

export interface WireChoice {
  name: string;
  value: string | number;
}

export interface WireCommandOption {
  type: number;
  name: string;
  description: string;
  required?: boolean | null;
  autocomplete?: boolean | null;
  choices?: WireChoice[] | null;
  options?: WireCommandOption[] | null;
  min_value?: number | null;
  max_value?: number | null;
  min_length?: number | null;
  max_length?: number | null;
  channel_types?: number[] | null;
}

export interface WireCommand {
  type?: number | null;
  name: string;
  description?: string | null;
  options?: WireCommandOption[] | null;
  default_member_permissions?: string | number | null;
  contexts?: number[] | null;
  integration_types?: number[] | null;
  nsfw?: boolean | null;
}

export interface WireModal {
  custom_id: string;
  title: string;
  components: WireComponent[];
}
