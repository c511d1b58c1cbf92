import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { addChannelRoutes } from './api/channelRoutes.ts';
import { addCommandRoutes } from './api/commandRoutes.ts';
import { addIdentityRoutes } from './api/identityRoutes.ts';
import { addInteractionRoutes } from './api/interactionRoutes.ts';
import { addPinRoutes } from './api/pinRoutes.ts';
import { addWebhookRoutes } from './api/webhookRoutes.ts';
import { machineClock, type ProtocolClock } from './clock.ts';
import { makeControl } from './control/control.ts';
import { announceHappenings } from './gateway/announce.ts';
import { Gateway } from './gateway/gateway.ts';
import { handleApi } from './http/apiHandler.ts';
import { Faults } from './http/faults.ts';
import { RequestLog } from './http/requestLog.ts';
import { Router } from './http/router.ts';
import { FIXED_IDS } from './ids.ts';
import { InteractionRegistry } from './interactions/registry.ts';
import { servePage } from './pageServer.ts';
import { keepOnDisk, readState } from './world/keeper.ts';
import { makeWorld } from './world/world.ts';

const API_BASE = '/api/v10';

export interface LocalChatOptions {
  /** The port on 127.0.0.1; 0 takes a free one. */
  port: number;
  /** The token that a bot must log in with; default "local". */
  token?: string;
  /** Time for the protocol's deadlines; default the machine's. */
  clock?: ProtocolClock;
  /** A file in which channel, messages, users and commands outlive the process; default none. */
  stateFile?: string;
}

export interface LocalChat {
  port: number;
  /** For the client's `rest.api` setting. */
  apiUrl: string;
  pageUrl: string;
  token: string;
  guildId: string;
  channelId: string;
  applicationId: string;
  close(): Promise<void>;
}

/** Starts the stand-in chat service on the loopback address. */
export async function startLocalChat(options: LocalChatOptions): Promise<LocalChat> {
  const token = options.token ?? 'local';
  const clock = options.clock ?? machineClock;
  const saved = options.stateFile === undefined ? undefined : readState(options.stateFile);
  const world = makeWorld(clock, saved?.seed);
  for (const [id, bytes] of saved?.files ?? []) world.fileBytes.set(id, bytes);
  const interactions = new InteractionRegistry(clock);
  const gatewayUrl = () => `${world.baseUrl.replace('http:', 'ws:')}/gateway`;
  const gateway = new Gateway(world, token, gatewayUrl);
  const parts = { router: new Router(), faults: new Faults(), log: new RequestLog(), token, clock };
  addIdentityRoutes(parts.router, world, gatewayUrl);
  addChannelRoutes(parts.router, world);
  addPinRoutes(parts.router, world);
  addCommandRoutes(parts.router, world);
  addInteractionRoutes(parts.router, world, interactions);
  addWebhookRoutes(parts.router, world, interactions);
  const control = makeControl({ world, interactions, gateway, faults: parts.faults, log: parts.log });
  const stopAnnouncing = announceHappenings(world, gateway);
  const keeper = options.stateFile === undefined ? undefined : keepOnDisk(world, options.stateFile);

  const handle = async (request: IncomingMessage, response: ServerResponse) => {
    const url = new URL(request.url ?? '/', 'http://local');
    if (url.pathname.startsWith(`${API_BASE}/`))
      await handleApi(parts, url.pathname.slice(API_BASE.length), url, request, response);
    else if (url.pathname.startsWith('/local/')) await control.handle(url, request, response);
    else await servePage(url.pathname, response);
  };
  const server = createServer((request, response) => {
    handle(request, response).catch((problem: unknown) => {
      response.statusCode = 500;
      response.end(String(problem));
    });
  });
  server.on('upgrade', (request, socket, head) => gateway.accept(request, socket, head));
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(options.port, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  world.baseUrl = `http://127.0.0.1:${port}`;

  return {
    port,
    apiUrl: `${world.baseUrl}/api`,
    pageUrl: `${world.baseUrl}/`,
    token,
    guildId: FIXED_IDS.guild,
    channelId: FIXED_IDS.channel,
    applicationId: FIXED_IDS.application,
    async close() {
      stopAnnouncing();
      control.close();
      parts.faults.clear();
      gateway.close();
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
      keeper?.close();
    },
  };
}
