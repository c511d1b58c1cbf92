import { type CostKind, costKinds } from './cost.ts';
import type { Movement, Pot, SoldAnimals } from './movement.ts';

/** What money came to. Whole minor units; takings less fees, refunds and costs are the net. */
export interface MoneyTotals {
  readonly takingsMinor: number;
  /** Of the takings. */
  readonly animalsMinor: number;
  readonly goodsMinor: number;
  readonly postageMinor: number;
  readonly feesMinor: number;
  readonly refundsMinor: number;
  readonly costsMinor: number;
  readonly costsByKind: Readonly<Record<CostKind, number>>;
  readonly netMinor: number;
}

/** What a line came to before what all share: costs that were logged with one of its tubs are its own. */
export interface LineMoney {
  readonly lineId: number;
  readonly name: string;
  /** Animals paid for, extras apart. */
  readonly sold: number;
  readonly takingsMinor: number;
  readonly feesMinor: number;
  readonly refundsMinor: number;
  readonly costsMinor: number;
  readonly netMinor: number;
}

/** What is no line's: goods, the postage that buyers paid, and what all share. */
export interface RestMoney extends Omit<LineMoney, 'lineId' | 'name' | 'sold'> {
  readonly of: Exclude<Pot['of'], 'line'>;
}

export function moneyTotals(movements: readonly Movement[]): MoneyTotals {
  const sum = (fits: (movement: Movement) => boolean): number =>
    movements.reduce((total, movement) => (fits(movement) ? total + movement.minor : total), 0);
  const taken = (of: Pot['of']): number => sum(({ what, pot }) => what === 'taken' && pot.of === of);
  const [takingsMinor, feesMinor, refundsMinor, costsMinor] = (['taken', 'fee', 'refund', 'cost'] as const).map(
    (what) => sum((movement) => movement.what === what),
  ) as [number, number, number, number];
  return {
    takingsMinor,
    animalsMinor: taken('line'),
    goodsMinor: taken('goods'),
    postageMinor: taken('postage'),
    feesMinor,
    refundsMinor,
    costsMinor,
    costsByKind: Object.fromEntries(
      costKinds.map((kind) => [kind, sum(({ costKind }) => costKind === kind)]),
    ) as Record<CostKind, number>,
    netMinor: takingsMinor - feesMinor - refundsMinor - costsMinor,
  };
}

/** Each line that money or animals moved of, the one with the most takings first. */
export function moneyByLine(movements: readonly Movement[], sold: readonly SoldAnimals[]): LineMoney[] {
  const names = new Map<number, string>();
  for (const { pot } of movements) if (pot.of === 'line') names.set(pot.id, pot.name);
  for (const { lineId, name } of sold) names.set(lineId, name);
  return [...names]
    .map(([lineId, name]) => {
      const own = moneyTotals(movements.filter(({ pot }) => pot.of === 'line' && pot.id === lineId));
      const { takingsMinor, feesMinor, refundsMinor, costsMinor, netMinor } = own;
      const number = sold.reduce((sum, each) => (each.lineId === lineId ? sum + each.number : sum), 0);
      return { lineId, name, sold: number, takingsMinor, feesMinor, refundsMinor, costsMinor, netMinor };
    })
    .sort((a, b) => b.takingsMinor - a.takingsMinor || a.lineId - b.lineId);
}

/** Money that moved of no line, by what it was about. */
export const moneyOfRest = (movements: readonly Movement[]): RestMoney[] =>
  (['goods', 'postage', 'shared'] as const).map((of) => {
    const own = moneyTotals(movements.filter(({ pot }) => pot.of === of));
    const { takingsMinor, feesMinor, refundsMinor, costsMinor, netMinor } = own;
    return { of, takingsMinor, feesMinor, refundsMinor, costsMinor, netMinor };
  });
