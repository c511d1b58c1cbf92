import { type Reply, readMessage, readOutcome, type ShownMessage } from './reply.ts';
import type { LoggedRequest, Message, Outcome, People, User } from './wireReply.ts';

export type { Control, Form, FormField, Reply, ShownMessage } from './reply.ts';
export type { LoggedRequest, People, User } from './wireReply.ts';

export interface FileValue {
  filename: string;
  contentType: string;
  bytes: Uint8Array;
}

export type OptionValue = string | number | boolean | FileValue;
export type FieldValue = string | string[] | boolean | FileValue[];

export interface ActOptions {
  /** How long to wait for a deferred answer to be filled in; 0 returns at the acknowledgement. Default 30 s. */
  settleMs?: number;
}

/** Somebody in the channel. Every act returns once the bot has answered, or has failed to. */
export interface Person {
  name: string;
  command(name: string, options?: Record<string, OptionValue>, act?: ActOptions): Promise<Reply>;
  /** The choices offered while typing into an option; `options` are those typed before. */
  complete(
    name: string,
    option: string,
    typed: string,
    options?: Record<string, OptionValue>,
  ): Promise<{ name: string; value: string | number }[]>;
  /** Presses a button by its words or its custom id, on a reply or on a message of the channel. */
  press(on: Pressable, button: string, act?: ActOptions): Promise<Reply>;
  choose(on: Pressable, select: string, values: string[], act?: ActOptions): Promise<Reply>;
  /** Fills in the form that a reply brought, fields named by label or custom id. */
  submit(form: Reply, fields: Record<string, FieldValue>, act?: ActOptions): Promise<Reply>;
  say(text: string): Promise<ShownMessage>;
  /** All messages that this person sees, oldest first. */
  messages(): Promise<ShownMessage[]>;
  /** The same person in another channel. */
  in(channel: string): Person;
}

export type Pressable = Pick<Reply, 'message'> | ShownMessage;

export type FaultSwitch = { method: string; route: string; times?: number } & (
  | { kind: 'loseAnswer'; how?: 'reset' | 'close' }
  | { kind: 'status'; status: number; body?: { code: number; message: string } }
  | { kind: 'hold'; when?: 'before' | 'after' }
);

export interface Chat {
  as(user: string): Person;
  /** The messages of the channel that everybody sees, oldest first. */
  channelMessages(channel?: string): Promise<ShownMessage[]>;
  /** The first message that fits, among those that everybody sees, waiting for it to come or to be changed. */
  untilMessage(
    fits: (message: ShownMessage) => boolean,
    where?: { channel?: string; limitMs?: number },
  ): Promise<ShownMessage>;
  /** Commands as registered, by name. */
  commands(): Promise<{ name: string; description: string; options?: unknown[] }[]>;
  people(): Promise<People>;
  addUser(name: string, rights?: { mayManage?: boolean }): Promise<User>;
  addChannel(name: string): Promise<{ id: string; name: string }>;
  /** Looks at an interaction again, waiting for follow-ups or edits to come. */
  later(reply: Reply, until: { followUps?: number; edits?: number; limitMs?: number }): Promise<Reply>;
  requests(): Promise<LoggedRequest[]>;
  refusals(): Promise<LoggedRequest[]>;
  forgetRequests(): Promise<void>;
  /** Sets a fault for the next requests to a route. @returns lets held requests go and forgets the switch */
  fault(wanted: FaultSwitch): Promise<() => Promise<void>>;
  clearFaults(): Promise<void>;
  /** Breaks the bot's connection: `drop` lets it resume, `forget` makes it log in anew, `down` and `up` bracket an outage. */
  gateway(action: 'drop' | 'forget' | 'down' | 'up'): Promise<void>;
}

/** Drives a stand-in chat service at its page address. */
export function driveChat(pageUrl: string): Chat {
  const ask = async <T>(method: string, path: string, body?: unknown): Promise<T> => {
    const response = await fetch(new URL(`/local/${path}`, pageUrl), {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
    });
    const text = await response.text();
    if (!response.ok) throw new Error(`${method} /local/${path}: ${readError(text)}`);
    return (text === '' ? undefined : JSON.parse(text)) as T;
  };
  const act = async (name: string, body: unknown) => readOutcome(await ask<Outcome>('POST', name, body));
  const messagesAs = async (user: string, channel?: string) => {
    const query = new URLSearchParams({ as: user, limit: '1000', ...(channel === undefined ? {} : { channel }) });
    return (await ask<Message[]>('GET', `messages?${query}`)).map(readMessage);
  };

  const person = (user: string, channel?: string): Person => {
    const who = { as: user, ...(channel === undefined ? {} : { channel }) };
    return {
      name: user,
      command: (command, options = {}, how = {}) => act('run', { ...who, ...how, command, options: packAll(options) }),
      complete: async (command, focused, typed, options = {}) => {
        const reply = await act('complete', { ...who, command, focused, typed, options: packAll(options) });
        if (reply.kind !== 'choices') throw new Error(`no choices came: ${reply.failure ?? reply.kind}`);
        return reply.choices;
      },
      press: (on, control, how = {}) => act('press', { ...who, ...how, message: idOf(on), control }),
      choose: (on, control, values, how = {}) => act('choose', { ...who, ...how, message: idOf(on), control, values }),
      submit: (form, fields, how = {}) =>
        act('submit', { ...who, ...how, form: form.interactionId, fields: packAll(fields) }),
      say: async (text) => readMessage(await ask<Message>('POST', 'say', { ...who, text })),
      messages: () => messagesAs(user, channel),
      in: (other) => person(user, other),
    };
  };

  const channelMessages = async (channel?: string) => {
    const { users } = await ask<People>('GET', 'people');
    const first = users[0];
    if (first === undefined) throw new Error('the stand-in has no users');
    return (await messagesAs(first.id, channel)).filter((message) => !message.ephemeral);
  };
  const untilMessage: Chat['untilMessage'] = async (fits, { channel, limitMs = 20_000 } = {}) => {
    const endAtMs = Date.now() + limitMs;
    let { count } = await ask<{ count: number }>('GET', 'changes');
    for (;;) {
      const messages = await channelMessages(channel);
      const found = messages.find(fits);
      if (found !== undefined) return found;
      const leftMs = endAtMs - Date.now();
      if (leftMs <= 0)
        throw new Error(`no such message came; there are: ${JSON.stringify(messages.map((message) => message.text))}`);
      ({ count } = await ask<{ count: number }>('GET', `changes?after=${count}&limitMs=${leftMs}`));
    }
  };

  return {
    as: (user) => person(user),
    channelMessages,
    untilMessage,
    commands: () => ask('GET', 'commands'),
    people: () => ask('GET', 'people'),
    addUser: (name, rights = {}) => ask('POST', 'users', { name, ...rights }),
    addChannel: (name) => ask('POST', 'channels', { name }),
    later: async (reply, { followUps = 0, edits = 0, limitMs = 20_000 }) =>
      readOutcome(
        await ask(
          'GET',
          `interactions/${reply.interactionId}?followUps=${followUps}&edits=${edits}&limitMs=${limitMs}`,
        ),
      ),
    requests: () => ask('GET', 'requests'),
    refusals: () => ask('GET', 'refusals'),
    forgetRequests: () => ask('DELETE', 'requests'),
    fault: async (wanted) => {
      const { id } = await ask<{ id: number }>('POST', 'faults', wanted);
      return () => ask('DELETE', `faults/${id}`);
    },
    clearFaults: () => ask('DELETE', 'faults'),
    gateway: (action) => ask('POST', 'gateway', { action }),
  };
}

function readError(text: string): string {
  try {
    return String((JSON.parse(text) as { error?: unknown }).error ?? text);
  } catch {
    return text;
  }
}

function idOf(on: Pressable): string {
  if (on.message === undefined) throw new Error('there is no message to act on');
  return on.message.id;
}

function packAll(values: Record<string, OptionValue | FieldValue>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(values).map(([name, value]) => [name, pack(value)]));
}

function pack(value: OptionValue | FieldValue): unknown {
  if (Array.isArray(value)) return value.map((entry) => pack(entry));
  if (typeof value !== 'object') return value;
  return {
    filename: value.filename,
    contentType: value.contentType,
    base64: Buffer.from(value.bytes).toString('base64'),
  };
}
