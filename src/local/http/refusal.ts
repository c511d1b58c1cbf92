import type { Json, JsonObject } from '../wire.ts';

/** A request that the service turns down, in the form in which the service says so. */
export class ApiRefusal extends Error {
  readonly status: number;
  readonly code: number;
  readonly errors: JsonObject | undefined;

  constructor(status: number, code: number, message: string, errors?: JsonObject) {
    super(message);
    this.status = status;
    this.code = code;
    this.errors = errors;
  }

  body(): JsonObject {
    return this.errors === undefined
      ? { message: this.message, code: this.code }
      : { message: this.message, code: this.code, errors: this.errors };
  }
}

/** The refusals that need no field: status, code and text as in the service's list of error codes. */
export const refusals = {
  unauthorized: () => new ApiRefusal(401, 0, '401: Unauthorized'),
  noRoute: () => new ApiRefusal(404, 0, '404: Not Found'),
  wrongMethod: () => new ApiRefusal(405, 0, '405: Method Not Allowed'),
  unknownApplication: () => new ApiRefusal(404, 10002, 'Unknown Application'),
  unknownChannel: () => new ApiRefusal(404, 10003, 'Unknown Channel'),
  unknownGuild: () => new ApiRefusal(404, 10004, 'Unknown Guild'),
  unknownMember: () => new ApiRefusal(404, 10007, 'Unknown Member'),
  unknownMessage: () => new ApiRefusal(404, 10008, 'Unknown Message'),
  unknownUser: () => new ApiRefusal(404, 10013, 'Unknown User'),
  unknownWebhook: () => new ApiRefusal(404, 10015, 'Unknown Webhook'),
  unknownInteraction: () => new ApiRefusal(404, 10062, 'Unknown interaction'),
  unknownCommand: () => new ApiRefusal(404, 10063, 'Unknown application command'),
  tooManyCommands: () => new ApiRefusal(400, 30032, 'Maximum number of application commands reached (100)'),
  tooManyCreatesToday: () =>
    new ApiRefusal(400, 30034, 'Max number of daily application command creates has been reached (200)'),
  tooManyPins: () => new ApiRefusal(400, 30003, 'Maximum number of pins reached for the channel (250)'),
  tooLarge: () => new ApiRefusal(413, 40005, 'Request entity too large'),
  alreadyAnswered: () => new ApiRefusal(400, 40060, 'Interaction has already been acknowledged.'),
  notTheAuthor: () => new ApiRefusal(403, 50005, 'Cannot edit a message authored by another user'),
  emptyMessage: () => new ApiRefusal(400, 50006, 'Cannot send an empty message'),
  invalidToken: () => new ApiRefusal(401, 50027, 'Invalid Webhook Token'),
  notJson: () => new ApiRefusal(400, 50109, 'The request body contains invalid JSON.'),
} as const;

/** Under this name the service lists what is wrong with a field. */
const LIST = '_errors';

export type FieldPath = readonly (string | number)[];

/** Collects what is wrong with a body, field by field, and refuses all of it at once. */
export class FormErrors {
  readonly #tree: JsonObject = {};
  #count = 0;

  add(path: FieldPath, code: string, message: string): void {
    this.#count += 1;
    let node = this.#tree;
    for (const step of path) {
      const key = String(step);
      const next = node[key];
      if (isNode(next)) {
        node = next;
      } else {
        const made: JsonObject = {};
        node[key] = made;
        node = made;
      }
    }
    const list = node[LIST];
    const entry = { code, message };
    if (Array.isArray(list)) list.push(entry);
    else node[LIST] = [entry];
  }

  get found(): boolean {
    return this.#count > 0;
  }

  /** @throws ApiRefusal 50035 when anything was added. */
  refuseIfAny(): void {
    if (this.found) throw new ApiRefusal(400, 50035, 'Invalid Form Body', this.#tree);
  }
}

function isNode(value: Json | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
