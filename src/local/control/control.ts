import type { IncomingMessage, ServerResponse } from 'node:http';
import * as z from 'zod';
import { wireCommand } from '../api/commandRoutes.ts';
import { type Answer, type Call, noContent, ok, param } from '../http/call.ts';
import type { Faults } from '../http/faults.ts';
import { readBody } from '../http/readBody.ts';
import { ApiRefusal } from '../http/refusal.ts';
import type { RequestLog } from '../http/requestLog.ts';
import { Router } from '../http/router.ts';
import type { Interaction } from '../interactions/registry.ts';
import { createMessage } from '../messages/compose.ts';
import { type ActionParts, makeActions } from './actions.ts';
import * as asks from './asks.ts';
import { ChangeCount } from './changeCount.ts';
import { EventStream } from './eventStream.ts';
import { addFaultRoutes } from './faultRoutes.ts';
import { outcomeOf, showMessage, visibleMessages, waitForOutcome } from './outcome.ts';
import { addPeopleRoutes } from './peopleRoutes.ts';
import { serveFile } from './serveFile.ts';
import { askedChannel, askedUser } from './whoAndWhere.ts';
import { WrongAsk } from './wrongAsk.ts';

export interface ControlParts extends ActionParts {
  faults: Faults;
  log: RequestLog;
}

export interface Control {
  handle(url: URL, request: IncomingMessage, response: ServerResponse): Promise<void>;
  close(): void;
}

/** The control interface: what the page and the end-to-end tests use to act as people and to look at the channel. */
export function makeControl(parts: ControlParts): Control {
  const { world, interactions, gateway, log } = parts;
  const router = new Router();
  const stream = new EventStream(world);
  const changes = new ChangeCount(world);
  const actions = makeActions(parts);
  const outcome = async (interaction: Interaction, settleMs: number): Promise<Answer> =>
    ok(await waitForOutcome(world, interactions, interaction, settleMs));

  const act = <A extends { settleMs: number }>(name: string, form: z.ZodType<A>, open: (ask: A) => Interaction) => {
    router.on('POST', `/local/${name}`, (call) => {
      const ask = form.parse(call.body);
      return outcome(open(ask), ask.settleMs);
    });
  };
  act('run', asks.runAsk, actions.run);
  act('press', asks.pressAsk, actions.press);
  act('choose', asks.chooseAsk, actions.choose);
  act('submit', asks.submitAsk, actions.submit);
  router.on('POST', '/local/complete', (call) => outcome(actions.complete(asks.completeAsk.parse(call.body)), 0));

  router.on('POST', '/local/say', (call) => {
    const ask = asks.sayAsk.parse(call.body);
    const author = askedUser(world, ask.as);
    const body = { content: ask.text, allowed_mentions: null };
    const message = createMessage(world, {
      channelId: askedChannel(world, ask.channel).id,
      authorId: author.id,
      body,
      uploads: [],
    });
    return ok(showMessage(world, message));
  });

  router.on('GET', '/local/interactions/{interaction}', async (call) => {
    const interaction = interactions.get(param(call, 'interaction'));
    if (interaction === undefined) throw new WrongAsk('no such interaction', 404);
    const followUps = numberOf(call, 'followUps', 0);
    const edits = numberOf(call, 'edits', 0);
    const isThere = () => interaction.followUpIds.length >= followUps && interaction.edits >= edits;
    await interactions.until(isThere, numberOf(call, 'limitMs', 0));
    return ok(outcomeOf(world, interaction));
  });

  router.on('GET', '/local/messages', (call) => {
    const user = askedUser(world, call.query.get('as') ?? '');
    const channel = askedChannel(world, call.query.get('channel') ?? undefined);
    return ok(visibleMessages(world, channel.id, user, numberOf(call, 'limit', 100)));
  });
  router.on('GET', '/local/changes', async (call) =>
    ok({ count: await changes.above(numberOf(call, 'after', 0), numberOf(call, 'limitMs', 0)) }),
  );
  router.on('GET', '/local/commands', () => ok(world.commands.map(wireCommand)));
  router.on('GET', '/local/requests', () => ok(log.all()));
  router.on('GET', '/local/refusals', () => ok(log.refusals()));
  router.on('DELETE', '/local/requests', () => {
    log.clear();
    return noContent;
  });
  addPeopleRoutes(router, world, () => gateway.isConnected);
  addFaultRoutes(router, parts);

  return {
    async handle(url, request, response) {
      if (!isFromHere(request))
        return sendJson(response, { status: 403, json: { error: 'only pages of this address may ask' } });
      if (url.pathname === '/local/events') return stream.open(response);
      if (url.pathname.startsWith('/local/files/')) return serveFile(world, url.pathname, response);
      return sendJson(response, await answer(router, url, request));
    },
    close() {
      stream.close();
      changes.close();
    },
  };
}

async function answer(router: Router, url: URL, request: IncomingMessage): Promise<Answer> {
  const method = request.method ?? 'GET';
  const found = router.find(method, url.pathname);
  if (found.kind !== 'found') return { status: 404, json: { error: `no ${method} ${url.pathname}` } };
  try {
    const { body, uploads } = await readBody(request);
    const { template: route, params, handler } = found;
    const path = url.pathname;
    return await handler({
      method,
      path,
      route,
      params,
      query: url.searchParams,
      body,
      uploads,
      authorization: undefined,
    });
  } catch (problem) {
    if (problem instanceof WrongAsk) return { status: problem.status, json: { error: problem.message } };
    if (problem instanceof z.ZodError) return { status: 400, json: { error: z.prettifyError(problem) } };
    if (problem instanceof ApiRefusal)
      return { status: problem.status, json: { error: problem.message, refusal: problem.body() } };
    throw problem;
  }
}

/** Keeps pages of other origins from acting as people here. */
function isFromHere(request: IncomingMessage): boolean {
  const host = request.headers.host ?? '';
  const origin = request.headers.origin;
  const isLoopback = /^(127\.0\.0\.1|localhost)(:\d+)?$/.test(host);
  return isLoopback && (origin === undefined || origin === `http://${host}`);
}

function numberOf(call: Call, name: string, otherwise: number): number {
  const text = call.query.get(name);
  const number = text === null ? otherwise : Number(text);
  if (!Number.isInteger(number) || number < 0) throw new WrongAsk(`${name} takes a whole number`);
  return number;
}

function sendJson(response: ServerResponse, { status, json }: Answer): void {
  response.statusCode = status;
  response.setHeader('Content-Type', 'application/json');
  response.setHeader('Cache-Control', 'no-store');
  response.end(json === undefined ? undefined : JSON.stringify(json));
}
