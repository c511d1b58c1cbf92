import { randomUUID } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { GatewayOpcodes } from 'discord-api-types/v10';
import { type WebSocket, WebSocketServer } from 'ws';
import { FIXED_IDS } from '../ids.ts';
import type { JsonObject } from '../wire.ts';
import { wireGuildCreate } from '../world/guild.ts';
import { wireBot } from '../world/identity.ts';
import type { World } from '../world/world.ts';
import {
  CLIENT_PAYLOAD_BYTES,
  CLIENT_PAYLOADS_PER_MINUTE,
  CLOSE,
  intentProblem,
  readIdentify,
  readResume,
} from './handshake.ts';
import { memberChunk } from './memberChunk.ts';
import { Session } from './session.ts';

const HEARTBEAT_INTERVAL_MS = 41_250;
/** How long a session waits for its client to come back. */
const RESUMABLE_MS = 2 * 60_000;
/** Closes after which the client has given its session up. */
const GIVEN_UP = [1000, 1001];

/** The gateway: logs clients in, keeps their sessions over a lost connection, and hands events out. */
export class Gateway {
  readonly #world: World;
  readonly #token: string;
  readonly #server = new WebSocketServer({ noServer: true });
  readonly #sessions = new Map<string, Session>();
  readonly #url: () => string;
  #isDown = false;

  constructor(world: World, token: string, url: () => string) {
    this.#world = world;
    this.#token = token;
    this.#url = url;
  }

  /** Whether an event would reach a client: one is connected, or may come back for it. */
  get isReachable(): boolean {
    return this.#sessions.size > 0;
  }

  get isConnected(): boolean {
    return [...this.#sessions.values()].some((session) => session.isConnected);
  }

  accept(request: IncomingMessage, socket: Duplex, head: Buffer): void {
    if (this.#isDown) {
      socket.destroy();
      return;
    }
    this.#server.handleUpgrade(request, socket, head, (ws) => {
      this.#greet(ws, new URL(request.url ?? '/', 'ws://local').searchParams);
    });
  }

  /** Sends an event to every session that asked for one of the intents; 0 means everybody. */
  dispatch(type: string, data: JsonObject, intents = 0): void {
    for (const session of this.#sessions.values())
      if (intents === 0 || (session.intents & intents) !== 0) session.dispatch(type, data);
  }

  /** Breaks every connection. Sessions stay for a client that comes back, unless they are to be forgotten. */
  drop(how: { code?: number; forget?: boolean }): void {
    for (const session of this.#sessions.values()) {
      if (how.code === undefined) session.socket?.terminate();
      else session.socket?.close(how.code);
    }
    if (how.forget) this.#sessions.clear();
  }

  /** While down, no connection is accepted; those that exist break. */
  setDown(isDown: boolean): void {
    this.#isDown = isDown;
    if (isDown) this.drop({});
  }

  close(): void {
    for (const client of this.#server.clients) client.terminate();
    this.#server.close();
    this.#sessions.clear();
  }

  #greet(socket: WebSocket, query: URLSearchParams): void {
    if (query.get('v') !== '10') {
      socket.close(CLOSE.invalidVersion);
      return;
    }
    let session: Session | undefined;
    let payloads = 0;
    let minuteAtMs = this.#world.clock.nowMs();
    socket.on('error', () => socket.terminate());
    socket.on('message', (raw: Buffer) => {
      const nowMs = this.#world.clock.nowMs();
      if (nowMs - minuteAtMs >= 60_000) {
        minuteAtMs = nowMs;
        payloads = 0;
      }
      payloads += 1;
      if (payloads > CLIENT_PAYLOADS_PER_MINUTE) socket.close(CLOSE.rateLimited);
      else session = this.#receive(socket, session, raw) ?? session;
    });
    socket.on('close', (code) => {
      if (session?.socket === socket) this.#lose(session, code);
    });
    send(socket, { op: GatewayOpcodes.Hello, d: { heartbeat_interval: HEARTBEAT_INTERVAL_MS } });
  }

  #receive(socket: WebSocket, session: Session | undefined, raw: Buffer): Session | undefined {
    const payload = raw.byteLength > CLIENT_PAYLOAD_BYTES ? undefined : parse(raw.toString());
    if (payload === undefined) {
      socket.close(CLOSE.decodeError);
      return undefined;
    }
    switch (payload.op) {
      case GatewayOpcodes.Heartbeat:
        send(socket, { op: GatewayOpcodes.HeartbeatAck });
        return undefined;
      case GatewayOpcodes.Identify:
        if (session === undefined) return this.#identify(socket, payload.d);
        socket.close(CLOSE.alreadyAuthenticated);
        return undefined;
      case GatewayOpcodes.Resume:
        if (session === undefined) return this.#resume(socket, payload.d);
        socket.close(CLOSE.alreadyAuthenticated);
        return undefined;
      case GatewayOpcodes.RequestGuildMembers:
        if (session === undefined) socket.close(CLOSE.notAuthenticated);
        else session.dispatch('GUILD_MEMBERS_CHUNK', memberChunk(this.#world, payload.d));
        return undefined;
      case GatewayOpcodes.PresenceUpdate:
      case GatewayOpcodes.VoiceStateUpdate:
        if (session === undefined) socket.close(CLOSE.notAuthenticated);
        return undefined;
      default:
        socket.close(CLOSE.unknownOpcode);
        return undefined;
    }
  }

  #identify(socket: WebSocket, data: unknown): Session | undefined {
    const identify = readIdentify(data);
    const problem =
      identify === undefined
        ? CLOSE.decodeError
        : (this.#loginProblem(identify.token) ?? intentProblem(identify.intents));
    if (identify === undefined || problem !== undefined) {
      socket.close(problem);
      return undefined;
    }
    const session = new Session(randomUUID().replaceAll('-', ''), identify.intents, socket);
    this.#sessions.set(session.id, session);
    session.dispatch('READY', {
      v: 10,
      user: { ...wireBot(this.#world), verified: true, mfa_enabled: false, email: null },
      guilds: [{ id: FIXED_IDS.guild, unavailable: true }],
      session_id: session.id,
      session_type: 'normal',
      resume_gateway_url: this.#url(),
      shard: [0, 1],
      application: { id: FIXED_IDS.application, flags: 0 },
    });
    session.dispatch('GUILD_CREATE', wireGuildCreate(this.#world));
    this.#world.bus.tell({ kind: 'botPresence', connected: true });
    return session;
  }

  #resume(socket: WebSocket, data: unknown): Session | undefined {
    const resume = readResume(data);
    const problem = resume === undefined ? CLOSE.decodeError : this.#loginProblem(resume.token);
    if (resume === undefined || problem !== undefined) {
      socket.close(problem);
      return undefined;
    }
    const session = this.#sessions.get(resume.session_id);
    if (session === undefined) {
      send(socket, { op: GatewayOpcodes.InvalidSession, d: false });
      return undefined;
    }
    if (resume.seq > session.seq) {
      socket.close(CLOSE.invalidSeq);
      return undefined;
    }
    session.replay(socket, resume.seq);
    session.dispatch('RESUMED', {});
    this.#world.bus.tell({ kind: 'botPresence', connected: true });
    return session;
  }

  #loginProblem(token: string): number | undefined {
    return token === this.#token ? undefined : CLOSE.authenticationFailed;
  }

  #lose(session: Session, code: number): void {
    session.detach();
    if (GIVEN_UP.includes(code)) this.#sessions.delete(session.id);
    else
      this.#world.clock.after(RESUMABLE_MS, () => {
        if (!session.isConnected) this.#sessions.delete(session.id);
      });
    this.#world.bus.tell({ kind: 'botPresence', connected: this.isConnected });
  }
}

function parse(text: string): { op: number; d: unknown } | undefined {
  try {
    const payload: unknown = JSON.parse(text);
    if (typeof payload !== 'object' || payload === null) return undefined;
    const op: unknown = Reflect.get(payload, 'op');
    return typeof op === 'number' ? { op, d: Reflect.get(payload, 'd') } : undefined;
  } catch {
    return undefined;
  }
}

function send(socket: WebSocket, payload: JsonObject): void {
  socket.send(JSON.stringify(payload));
}
