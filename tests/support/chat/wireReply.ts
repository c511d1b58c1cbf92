/** What the control interface says, as far as tests look at it. */

export interface Component {
  type: number;
  custom_id?: string;
  label?: string;
  placeholder?: string;
  description?: string | null;
  disabled?: boolean;
  url?: string | null;
  style?: number;
  content?: string;
  options?: { label: string; value: string; description?: string; default?: boolean }[];
  components?: Component[];
  component?: Component;
  accessory?: Component;
  items?: { media: { url: string }; description?: string | null }[];
  media?: { url: string };
  file?: { url: string };
  value?: string;
  required?: boolean;
}

export interface Embed {
  title?: string;
  description?: string;
  author?: { name: string };
  footer?: { text: string };
  fields?: { name: string; value: string }[];
  image?: { url: string };
}

export interface Message {
  id: string;
  channel_id: string;
  content: string;
  embeds: Embed[];
  components: Component[];
  attachments: { id: string; filename: string; url: string; size: number; description?: string }[];
  mentions: { id: string; username: string }[];
  flags: number;
  pinned: boolean;
  edited_timestamp: string | null;
  nonce?: string | number;
  local: { authorName: string; isEphemeral: boolean; isLoading: boolean; askedBy?: string; askedFor?: string };
}

export interface Modal {
  custom_id: string;
  title: string;
  components: Component[];
}

export interface Outcome {
  interactionId: string;
  kind: 'message' | 'deferred' | 'update' | 'deferredUpdate' | 'modal' | 'choices' | 'none';
  failure?: string;
  isEphemeral: boolean;
  message?: Message;
  followUps: Message[];
  modal?: Modal;
  choices?: { name: string; value: string | number }[];
}

export interface LoggedRequest {
  method: string;
  path: string;
  route: string;
  status: number;
  code?: number;
  body?: unknown;
  files: string[];
  answer?: unknown;
  isInjected: boolean;
}

export interface User {
  id: string;
  name: string;
  isOwner: boolean;
  mayManage: boolean;
}

export interface People {
  botName: string;
  isBotConnected: boolean;
  guildId: string;
  applicationId: string;
  channelId: string;
  users: User[];
  channels: { id: string; name: string; withUserId?: string }[];
}
