import * as z from 'zod';

/** What the control interface takes, each as JSON. */

const asker = { as: z.string(), channel: z.string().optional() };

/** How long to wait for a deferred answer to be filled in, by the machine's time; 0 returns at the acknowledgement. */
const patience = { settleMs: z.number().int().min(0).max(600_000).default(30_000) };

const fileAsk = z.object({ filename: z.string().min(1), contentType: z.string().min(1), base64: z.string() });
const optionValue = z.union([z.string(), z.number(), z.boolean(), fileAsk]);
const values = z.record(z.string(), optionValue);

export const runAsk = z.object({ ...asker, ...patience, command: z.string(), options: values.default({}) });
export const completeAsk = z.object({
  ...asker,
  command: z.string(),
  options: values.default({}),
  focused: z.string(),
  typed: z.string(),
});
export const pressAsk = z.object({ ...asker, ...patience, message: z.string(), control: z.string() });
export const chooseAsk = z.object({ ...pressAsk.shape, values: z.array(z.string()) });
export const submitAsk = z.object({
  ...asker,
  ...patience,
  /** The interaction that was answered with the form. */
  form: z.string(),
  fields: z.record(z.string(), z.union([z.string(), z.array(z.string()), z.boolean(), z.array(fileAsk)])),
});
export const sayAsk = z.object({ ...asker, text: z.string().min(1).max(2000) });
export const userAsk = z.object({
  name: z.string().regex(/^[a-z0-9_.]{2,32}$/),
  mayManage: z.boolean().default(false),
});
export const channelAsk = z.object({ name: z.string().regex(/^[a-z0-9-]{1,100}$/) });

const faultScope = { method: z.string(), route: z.string(), times: z.number().int().min(1).default(1) };
export const faultAsk = z.discriminatedUnion('kind', [
  z.object({ ...faultScope, kind: z.literal('loseAnswer'), how: z.enum(['reset', 'close']).default('reset') }),
  z.object({
    ...faultScope,
    kind: z.literal('status'),
    status: z.number().int().min(400).max(599),
    body: z.json().optional(),
  }),
  z.object({ ...faultScope, kind: z.literal('hold'), when: z.enum(['before', 'after']).default('before') }),
]);
export const gatewayAsk = z.discriminatedUnion('action', [
  z.object({ action: z.literal('drop'), code: z.number().int().min(4000).max(4999).optional() }),
  z.object({ action: z.literal('forget') }),
  z.object({ action: z.literal('down') }),
  z.object({ action: z.literal('up') }),
]);

export type OptionValue = z.infer<typeof optionValue>;
export type FileAsk = z.infer<typeof fileAsk>;
export type FieldValue = z.infer<typeof submitAsk>['fields'][string];
