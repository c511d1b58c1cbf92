import type { Handler } from './call.ts';

interface Route {
  method: string;
  template: string;
  steps: string[];
  handler: Handler;
}

export type Found =
  | { kind: 'found'; template: string; params: Record<string, string>; handler: Handler }
  | { kind: 'wrongMethod' }
  | { kind: 'none' };

/** Finds the handler of a method and path; a step in braces takes any value, a fixed step goes before it. */
export class Router {
  readonly #routes: Route[] = [];

  on(method: string, template: string, handler: Handler): void {
    this.#routes.push({ method, template, steps: template.split('/'), handler });
  }

  find(method: string, path: string): Found {
    const steps = path.split('/').map(decodeStep);
    const fitting = this.#routes
      .filter((route) => fits(route.steps, steps))
      .sort((a, b) => openSteps(a) - openSteps(b));
    const route = fitting.find((entry) => entry.method === method);
    if (route === undefined) return { kind: fitting.length > 0 ? 'wrongMethod' : 'none' };
    return { kind: 'found', template: route.template, params: paramsOf(route.steps, steps), handler: route.handler };
  }
}

function decodeStep(step: string): string {
  try {
    return decodeURIComponent(step);
  } catch {
    return step;
  }
}

function isOpen(step: string): boolean {
  return step.startsWith('{');
}

function openSteps(route: Route): number {
  return route.steps.filter(isOpen).length;
}

function fits(template: string[], steps: string[]): boolean {
  return template.length === steps.length && template.every((step, index) => isOpen(step) || step === steps[index]);
}

function paramsOf(template: string[], steps: string[]): Record<string, string> {
  return Object.fromEntries(
    template.flatMap((step, index) => (isOpen(step) ? [[step.slice(1, -1), steps[index] ?? '']] : [])),
  );
}
