import type { IncomingMessage } from 'node:http';
import type { Upload } from '../messages/files.ts';
import { refusals } from './refusal.ts';

/** Bytes of one request, files included. */
export const REQUEST_BYTES = 25 * 1024 * 1024;

export interface ReadBody {
  body: unknown;
  uploads: Upload[];
}

/** Reads a JSON or multipart body. @throws ApiRefusal when it is too large or not well formed */
export async function readBody(request: IncomingMessage): Promise<ReadBody> {
  const bytes = await readBytes(request);
  const type = request.headers['content-type'] ?? '';
  if (bytes.byteLength === 0) return { body: undefined, uploads: [] };
  return type.startsWith('multipart/form-data')
    ? readForm(bytes, type)
    : { body: parseJson(bytes.toString()), uploads: [] };
}

async function readBytes(request: IncomingMessage): Promise<Buffer> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    size += chunk.byteLength;
    // The rest is still taken in, and dropped, so that the sender can read the refusal.
    if (size <= REQUEST_BYTES) chunks.push(chunk);
  }
  if (size > REQUEST_BYTES) throw refusals.tooLarge();
  return Buffer.concat(chunks);
}

async function readForm(bytes: Buffer, contentType: string): Promise<ReadBody> {
  const form = await new Response(new Uint8Array(bytes), { headers: { 'content-type': contentType } })
    .formData()
    .catch(() => {
      throw refusals.notJson();
    });
  const uploads: Upload[] = [];
  let body: unknown;
  for (const [name, part] of form.entries()) {
    if (name === 'payload_json') {
      body = parseJson(typeof part === 'string' ? part : await part.text());
    } else if (typeof part !== 'string') {
      uploads.push({
        index: /\[(\d+)\]/.exec(name)?.[1] ?? String(uploads.length),
        filename: part.name,
        contentType: part.type || 'application/octet-stream',
        bytes: new Uint8Array(await part.arrayBuffer()),
      });
    }
  }
  return { body: body ?? {}, uploads };
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw refusals.notJson();
  }
}
