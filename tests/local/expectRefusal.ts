import { ErrorResponseSchema } from 'discord-api-spec/zod';
import { expect } from 'vitest';
import type { RawAnswer } from './rawBot.ts';

/** What a wrong request must be told: a status and code, and for a wrong form which field is called what. */
export type Refusal = { status: number; code: number } | { field: string; is: string };

/** Checks a refusal's form against the published schema and its content against what was expected. */
export function expectRefusal(answer: RawAnswer, expected: Refusal): void {
  const body = answer.json as { code: number; errors?: unknown };
  expect(ErrorResponseSchema.safeParse({ ...body, errors: undefined }).success).toBe(true);
  if ('status' in expected) {
    expect({ status: answer.status, code: body.code }).toEqual(expected);
    return;
  }
  expect({ status: answer.status, code: body.code }).toEqual({ status: 400, code: 50035 });
  expect(codesAt(body.errors, expected.field)).toContain(expected.is);
}

const LIST = '_errors';

function codesAt(errors: unknown, path: string): string[] {
  let node: unknown = errors;
  for (const step of path.split('.').filter(Boolean)) node = isNode(node) ? node[step] : undefined;
  const list = isNode(node) ? node[LIST] : undefined;
  if (!Array.isArray(list)) return [`nothing at ${path}, but: ${JSON.stringify(errors)}`];
  return list.map((entry: { code: string }) => entry.code);
}

function isNode(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}
