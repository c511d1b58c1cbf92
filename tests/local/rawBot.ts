import { WebSocket } from 'ws';
import { type LocalChat, type LocalChatOptions, startLocalChat } from '../../src/local/startLocalChat.ts';
import { type Chat, driveChat } from '../support/chat/driver.ts';

/** An interaction as it comes over the wire, as far as these tests look at it. */
export interface WireInteraction {
  id: string;
  token: string;
  type: number;
  data: { custom_id?: string; components?: unknown[]; values?: string[] };
  message?: { id: string };
}

export interface RawAnswer {
  status: number;
  json: unknown;
}

/** A bot without a client library: it sends what it is told to, right or wrong. */
export interface RawBot {
  local: LocalChat;
  chat: Chat;
  send(method: string, path: string, body?: unknown, headers?: Record<string, string>): Promise<RawAnswer>;
  sendForm(
    method: string,
    path: string,
    payload: unknown,
    files: { name: string; bytes: Uint8Array }[],
  ): Promise<RawAnswer>;
  nextInteraction(): Promise<WireInteraction>;
  callback(interaction: WireInteraction, body: unknown, query?: string): Promise<RawAnswer>;
  close(): Promise<void>;
}

export async function startRawBot(options: Partial<LocalChatOptions> = {}): Promise<RawBot> {
  const local = await startLocalChat({ port: 0, ...options });
  const base = `${local.apiUrl}/v10`;
  const waiting: ((interaction: WireInteraction) => void)[] = [];
  const arrived: WireInteraction[] = [];
  const socket = await login(local, (interaction) => {
    const next = waiting.shift();
    if (next === undefined) arrived.push(interaction);
    else next(interaction);
  });
  const read = async (response: Response): Promise<RawAnswer> => {
    const text = await response.text();
    return { status: response.status, json: text === '' ? undefined : JSON.parse(text) };
  };
  const send: RawBot['send'] = async (method, path, body, headers = {}) =>
    read(
      await fetch(base + path, {
        method,
        headers: { authorization: `Bot ${local.token}`, 'content-type': 'application/json', ...headers },
        ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
      }),
    );
  return {
    local,
    chat: driveChat(local.pageUrl),
    send,
    async sendForm(method, path, payload, files) {
      const form = new FormData();
      form.set('payload_json', JSON.stringify(payload));
      files.forEach((file, index) => {
        form.set(`files[${index}]`, new Blob([new Uint8Array(file.bytes)], { type: 'image/png' }), file.name);
      });
      return read(await fetch(base + path, { method, headers: { authorization: `Bot ${local.token}` }, body: form }));
    },
    nextInteraction() {
      const there = arrived.shift();
      return there === undefined ? new Promise((resolve) => waiting.push(resolve)) : Promise.resolve(there);
    },
    callback: (interaction, body, query = '') =>
      send('POST', `/interactions/${interaction.id}/${interaction.token}/callback${query}`, body),
    async close() {
      socket.close(1000);
      await local.close();
    },
  };
}

/** Logs in over the gateway and hands every interaction on. */
async function login(local: LocalChat, onInteraction: (interaction: WireInteraction) => void): Promise<WebSocket> {
  const socket = new WebSocket(
    `${local.apiUrl.replace('http:', 'ws:').replace('/api', '/gateway')}?v=10&encoding=json`,
  );
  await new Promise<void>((resolve, reject) => {
    socket.on('error', reject);
    socket.on('close', (code) => reject(new Error(`closed with ${code}`)));
    socket.on('message', (raw: Buffer) => {
      const payload = JSON.parse(raw.toString()) as { op: number; t?: string; d: unknown };
      if (payload.op === 10)
        socket.send(JSON.stringify({ op: 2, d: { token: local.token, intents: 1, properties: {} } }));
      else if (payload.t === 'READY') resolve();
      else if (payload.t === 'INTERACTION_CREATE') onInteraction(payload.d as WireInteraction);
    });
  });
  return socket;
}
