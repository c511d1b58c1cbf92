import type { Upload } from '../messages/files.ts';
import type { Json } from '../wire.ts';
import { refusals } from './refusal.ts';

/** One request, read and taken apart. */
export interface Call {
  method: string;
  /** The path below the API base, still as sent. */
  path: string;
  /** The template of the route that was found, for example `/channels/{channel}/messages`. */
  route: string;
  params: Record<string, string>;
  query: URLSearchParams;
  body: unknown;
  uploads: Upload[];
  authorization: string | undefined;
}

export interface Answer {
  status: number;
  json?: Json | object;
}

export type Handler = (call: Call) => Answer | Promise<Answer>;

/** A named part of the path. */
export function param(call: Call, name: string): string {
  const value = call.params[name];
  if (value === undefined) throw refusals.noRoute();
  return value;
}

export const ok = (json: Json | object): Answer => ({ status: 200, json });
export const created = (json: Json | object): Answer => ({ status: 201, json });
export const noContent: Answer = { status: 204 };
