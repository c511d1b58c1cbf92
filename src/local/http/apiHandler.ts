import type { IncomingMessage, ServerResponse } from 'node:http';
import type { ProtocolClock } from '../clock.ts';
import type { Json } from '../wire.ts';
import type { Answer, Call } from './call.ts';
import type { Faults, SetFault } from './faults.ts';
import { readBody } from './readBody.ts';
import { ApiRefusal, refusals } from './refusal.ts';
import type { RequestLog } from './requestLog.ts';
import type { Router } from './router.ts';

export interface ApiParts {
  router: Router;
  faults: Faults;
  log: RequestLog;
  token: string;
  clock: ProtocolClock;
}

/** Handles one request below the API base: finds its route, reads it, checks who asks, answers, and logs all of it. */
export async function handleApi(
  parts: ApiParts,
  path: string,
  url: URL,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const method = request.method ?? 'GET';
  const call: Call = {
    method,
    path,
    route: path,
    params: {},
    query: url.searchParams,
    body: undefined,
    uploads: [],
    authorization: request.headers.authorization,
  };
  let fault: SetFault | undefined;
  let answer: Answer;
  let refusal: ApiRefusal | undefined;
  try {
    const found = parts.router.find(method, path);
    if (found.kind === 'found') {
      call.route = found.template;
      call.params = found.params;
    }
    Object.assign(call, await readBody(request));
    if (found.kind === 'none') throw refusals.noRoute();
    if (found.kind === 'wrongMethod') throw refusals.wrongMethod();
    checkToken(call, parts.token);
    fault = parts.faults.take(method, call.route);
    answer = await answerWith(fault, () => found.handler(call));
  } catch (problem) {
    refusal = problem instanceof ApiRefusal ? problem : undefined;
    answer = refusal
      ? { status: refusal.status, json: refusal.body() }
      : { status: 500, json: { message: `500: Internal Server Error (${String(problem)})`, code: 0 } };
  }
  parts.log.add({
    atMs: parts.clock.nowMs(),
    method,
    path,
    route: call.route,
    status: answer.status,
    ...(refusal === undefined ? {} : { code: refusal.code }),
    ...(call.body === undefined ? {} : { body: call.body as Json }),
    files: call.uploads.map((upload) => upload.filename),
    ...(answer.json === undefined ? {} : { answer: answer.json as Json }),
    isInjected: fault?.fault.kind === 'status',
  });
  if (fault?.fault.kind === 'loseAnswer') loseAnswer(response, fault.fault.how);
  else send(response, call, answer);
}

/** Interaction callbacks and follow-ups carry their own token in the path; everything else is the bot's alone. */
function checkToken(call: Call, token: string): void {
  if (call.route.startsWith('/interactions/') || call.route.startsWith('/webhooks/')) return;
  if (call.authorization !== `Bot ${token}`) throw refusals.unauthorized();
}

async function answerWith(set: SetFault | undefined, handle: () => Answer | Promise<Answer>): Promise<Answer> {
  const fault = set?.fault;
  if (set === undefined || fault === undefined) return handle();
  if (fault.kind === 'status') {
    return { status: fault.status, json: fault.body ?? { message: `${fault.status}: set by a test`, code: 0 } };
  }
  if (fault.kind === 'hold' && fault.when === 'before') await set.released;
  const answer = await handle();
  if (fault.kind === 'hold' && fault.when === 'after') await set.released;
  return answer;
}

/** Breaks the connection after the request took effect: with a reset, or by closing it without one. */
function loseAnswer(response: ServerResponse, how: 'reset' | 'close'): void {
  if (how === 'reset') response.socket?.resetAndDestroy();
  else response.socket?.end();
}

function send(response: ServerResponse, call: Call, answer: Answer): void {
  response.statusCode = answer.status;
  response.setHeader('X-RateLimit-Limit', '1000');
  response.setHeader('X-RateLimit-Remaining', '999');
  response.setHeader('X-RateLimit-Reset-After', '1');
  response.setHeader('X-RateLimit-Bucket', `${call.method}${call.route}`.replaceAll(/[^A-Za-z]+/g, '-').toLowerCase());
  if (answer.status === 204 || answer.json === undefined) {
    response.end();
    return;
  }
  response.setHeader('Content-Type', 'application/json');
  response.end(JSON.stringify(answer.json));
}
