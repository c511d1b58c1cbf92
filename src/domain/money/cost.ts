import type { Logged } from '../tub.ts';

export const costKinds = ['feed', 'packing', 'postage', 'gear', 'tub', 'other'] as const;
export type CostKind = (typeof costKinds)[number];

/** Kinds that are spent once to have something for years, rather than again with what is sold. */
export const lastingKinds: readonly CostKind[] = ['gear', 'tub'];

/** Money that went out. */
export interface Cost extends Logged {
  /** Whole minor units over 0. */
  readonly amountMinor: number;
  readonly what: string;
  readonly kind: CostKind;
  /** The tub that it was for, with the line in it then; null: shared by all. */
  readonly tub: {
    readonly id: number;
    readonly name: string;
    readonly lineId: number;
    readonly lineName: string;
  } | null;
}

/** The kind that the words of a cost say by themselves ("postage 41", "feed"); undefined where they say none, or two. */
export function kindInWords(what: string): CostKind | undefined {
  const words = new Set(what.toLowerCase().split(/[^\p{L}]+/u));
  const [first, ...others] = costKinds.filter((kind) => kind !== 'other' && words.has(kind));
  return others.length === 0 ? first : undefined;
}
