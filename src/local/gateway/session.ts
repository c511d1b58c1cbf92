import { GatewayOpcodes } from 'discord-api-types/v10';
import type { WebSocket } from 'ws';
import type { JsonObject } from '../wire.ts';

/** Events kept for a client that comes back. */
const KEPT_EVENTS = 2000;

/** One login of a client: it outlives its connection, so that a client that comes back gets what it missed. */
export class Session {
  readonly id: string;
  readonly intents: number;
  #socket: WebSocket | undefined;
  #seq = 0;
  #sent: { seq: number; text: string }[] = [];

  constructor(id: string, intents: number, socket: WebSocket) {
    this.id = id;
    this.intents = intents;
    this.#socket = socket;
  }

  get isConnected(): boolean {
    return this.#socket !== undefined;
  }

  get socket(): WebSocket | undefined {
    return this.#socket;
  }

  get seq(): number {
    return this.#seq;
  }

  /** Numbers an event, sends it if the client is there, and keeps it in case that it was not. */
  dispatch(type: string, data: JsonObject): void {
    this.#seq += 1;
    const text = JSON.stringify({ op: GatewayOpcodes.Dispatch, t: type, s: this.#seq, d: data });
    this.#sent.push({ seq: this.#seq, text });
    if (this.#sent.length > KEPT_EVENTS) this.#sent.shift();
    this.#socket?.send(text);
  }

  detach(): void {
    this.#socket = undefined;
  }

  /** Sends all events after `seq` to the connection on which the client came back. */
  replay(socket: WebSocket, seq: number): void {
    this.#socket = socket;
    for (const event of this.#sent) if (event.seq > seq) socket.send(event.text);
  }
}
