import type { Gateway } from '../gateway/gateway.ts';
import { noContent, ok, param } from '../http/call.ts';
import type { Faults } from '../http/faults.ts';
import type { Router } from '../http/router.ts';
import { faultAsk, gatewayAsk } from './asks.ts';

/** The switches by which a test makes the service fail. */
export function addFaultRoutes(router: Router, parts: { faults: Faults; gateway: Gateway }): void {
  const { faults, gateway } = parts;
  router.on('POST', '/local/faults', (call) => {
    const { kind, method, route, times, ...rest } = faultAsk.parse(call.body);
    return ok({ id: faults.add({ kind, method, route, times, ...rest } as Parameters<Faults['add']>[0]) });
  });
  router.on('DELETE', '/local/faults', () => {
    faults.clear();
    return noContent;
  });
  router.on('DELETE', '/local/faults/{fault}', (call) => {
    faults.clear(Number(param(call, 'fault')));
    return noContent;
  });
  router.on('POST', '/local/gateway', (call) => {
    const ask = gatewayAsk.parse(call.body);
    if (ask.action === 'drop') gateway.drop(ask.code === undefined ? {} : { code: ask.code });
    else if (ask.action === 'forget') gateway.drop({ forget: true });
    else gateway.setDown(ask.action === 'down');
    return noContent;
  });
}
