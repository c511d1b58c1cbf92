import { saleActFields } from './saleActs.ts';

/** Every control that the bot puts under a message: its name in the custom id, and the arguments that travel in it. */
const actFields = {
  again: { draft: 'number', choice: 'number' },
  'leave-it': {},
  'form-again': { draft: 'number' },
  home: {},
  'reading-form': { tub: 'number' },
  'reading-send': { tub: 'number' },
  'pick-tub': { purpose: 'text' },
  'pick-rack': { purpose: 'text' },
  'picked-tub': { purpose: 'text', from: 'number' },
  'undo-last': {},
  'change-now': { tub: 'number', litres: 'number' },
  'change-plan': {},
  'change-missed': { entry: 'number', litres: 'number', at: 'number' },
  'reading-mend': { entry: 'number', nitrate: 'number' },
  'reading-show': { entry: 'number' },
  'reading-pick': {},
  'changes-done': {},
  'count-form': { tub: 'number' },
  'count-send': { tub: 'number' },
  'passes-form': { tub: 'number', caught: 'text' },
  'passes-send': { tub: 'number' },
  'help-topic': {},
  'sheet-form': { rack: 'text' },
  'sheet-send': { rack: 'text' },
  'undo-ask': { entry: 'number' },
  'undo-pick': {},
  'undo-together': { from: 'number', to: 'number' },
  'undo-now': { entry: 'number' },
  'line-form': {},
  'line-send': {},
  'tubs-form': {},
  'tubs-send': {},
  'hold-lift': { tub: 'number' },
  'hold-now': { tub: 'number' },
  'trouble-ask': { tub: 'number' },
  'trouble-changed': { tub: 'number', from: 'text' },
  'trouble-seen': { tub: 'number', changed: 'text' },
  'trouble-show': { tub: 'number' },
  stock: {},
  'stock-line': { line: 'number' },
  forecast: { line: 'number' },
  'forecast-pick': {},
  'forecast-picked': {},
  'sale-form': {},
  'tub-show': { tub: 'number' },
  'tub-pick': {},
  ...saleActFields,
  cover: {},
  round: {},
  'round-done': { day: 'text', at: 'text', chore: 'number' },
  'round-next': { day: 'text', at: 'text' },
  'round-leave': {},
  'rota-today': {},
  'rota-week': {},
  'rota-ticks': { place: 'text', day: 'text' },
  'rota-rack': { place: 'text', day: 'text', tub: 'number' },
} as const satisfies Record<string, Record<string, 'number' | 'text'>>;

export type ActName = keyof typeof actFields;

type Fields<N extends ActName> = (typeof actFields)[N];

/** The arguments of one act, by name. */
export type ActArgs<N extends ActName> = {
  readonly [K in keyof Fields<N>]: Fields<N>[K] extends 'number' ? number : string;
};

/** A control's act with its arguments, as read back from a custom id. */
export type Press = { [N in ActName]: { readonly act: N; readonly args: ActArgs<N> } }[ActName];

/** The act that a control stands for. */
export const press = <N extends ActName>(act: N, args: ActArgs<N>): Press => ({ act, args }) as unknown as Press;

/** A custom id of at most 100 characters: `act:arg:arg`, with `#key` behind it on the first control of a post. Throws when longer. */
export function customIdOf(pressed: Press, postKey?: string): string {
  const args = pressed.args as Record<string, number | string>;
  const parts = Object.keys(actFields[pressed.act]).map((name) => encodeURIComponent(String(args[name])));
  const id = [pressed.act, ...parts].join(':') + (postKey === undefined ? '' : `#${postKey}`);
  if (id.length > 100) throw new Error(`custom id longer than 100 characters: ${id}`);
  return id;
}

/** What a custom id stands for, or undefined where it is none of ours (a button of an older version, say). */
export function pressOf(customId: string): Press | undefined {
  const [body = ''] = customId.split('#', 1);
  const [act = '', ...parts] = body.split(':');
  if (!Object.hasOwn(actFields, act)) return undefined;
  const fields = Object.entries(actFields[act as ActName]);
  if (fields.length !== parts.length) return undefined;
  const args: Record<string, number | string> = {};
  for (const [index, [name, type]] of fields.entries()) {
    const text = decodeURIComponent(parts[index] ?? '');
    args[name] = type === 'number' ? Number(text) : text;
    if (type === 'number' && (text === '' || !Number.isFinite(args[name]))) return undefined;
  }
  return { act, args } as unknown as Press;
}

/** The key of the post that a custom id belongs to, if it is the first control of one. */
export const postKeyOf = (customId: string): string | undefined => customId.split('#')[1];
