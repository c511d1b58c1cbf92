import type { ServerResponse } from 'node:http';
import type { World } from '../world/world.ts';

/** Tells pages what kind of thing changed, as server-sent events; they fetch what they need themselves. */
export class EventStream {
  readonly #readers = new Set<ServerResponse>();
  readonly #stopListening: () => void;

  constructor(world: World) {
    this.#stopListening = world.bus.listen((happening) => {
      for (const reader of this.#readers)
        reader.write(`event: changed\ndata: ${JSON.stringify({ kind: happening.kind })}\n\n`);
    });
  }

  open(response: ServerResponse): void {
    response.writeHead(200, { 'Content-Type': 'text/event-stream', 'Cache-Control': 'no-cache' });
    response.write('retry: 1000\n\n');
    this.#readers.add(response);
    response.on('close', () => this.#readers.delete(response));
  }

  close(): void {
    this.#stopListening();
    for (const reader of this.#readers) reader.end();
  }
}
