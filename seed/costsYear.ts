import { logCost, tubsInUse } from '../src/desk/index.ts';
import type { CostKind, LocalDay } from '../src/domain/index.ts';
import { quarantine } from './founding.ts';
import { openRandom } from './random.ts';
import { must, type Stage } from './stage.ts';

/** What was spent in the year: on the first day what it takes to begin, then on what runs out and what is sent. */
export interface CostsYear {
  /** The evening's receipts, with the parcels that left that morning. */
  evening(day: LocalDay, parcels: number): void;
}

/** Invented prices, minor units. */
const tubMinor = 2450;
const pumpMinor = 8900;
const postageMinor = { least: 520, most: 690 } as const;
const packingMinor = 165;

/** What is bought again each month, on its day; some of it for one rack's tub only. */
const monthly: readonly {
  readonly on: string;
  readonly kind: CostKind;
  readonly what: string;
  readonly minor: number;
}[] = [
  { on: '05', kind: 'feed', what: 'flakes and pellets', minor: 1280 },
  { on: '12', kind: 'other', what: 'water and power of the room', minor: 1850 },
  { on: '21', kind: 'feed', what: 'almond leaves', minor: 640 },
];

export function openCostsYear(stage: Stage, seed: number): CostsYear {
  const { desk, clock } = stage;
  const random = openRandom(seed);
  let begun = false;

  const spend = (amountMinor: number, what: string, kind: CostKind, tub?: string): void => {
    clock.pass(1);
    must(logCost(desk, stage.by(random.happens(0.6) ? 'partner' : 'owner'), { amountMinor, what, kind, tub }));
  };

  /** Each tub that has stood there since the first day, and the pump that drives them all. */
  const begin = (): void => {
    begun = true;
    for (const { name } of tubsInUse(desk)) spend(tubMinor, 'tub, sponge filter and lid', 'tub', name);
    spend(pumpMinor, 'air pump, hose and check valves', 'gear');
  };

  const [quarantineTub] = quarantine.names;
  let isQuarantineBought = false;

  return {
    evening(day, parcels) {
      if (!begun) begin();
      for (const { on, kind, what, minor } of monthly) {
        if (day.endsWith(`-${on}`)) spend(minor + random.whole(0, 120), what, kind);
      }
      if (parcels > 0) {
        const each = (): number => random.whole(postageMinor.least, postageMinor.most);
        spend(
          Array.from({ length: parcels }, each).reduce((sum, minor) => sum + minor, 0),
          `postage of ${parcels}`,
          'postage',
        );
        spend(parcels * packingMinor, `boxes and bags for ${parcels}`, 'packing');
      }
      if (!isQuarantineBought && tubsInUse(desk).some(({ name }) => name === quarantineTub)) {
        isQuarantineBought = true;
        spend(tubMinor - 300, 'second-hand tub for the quarantine', 'tub', quarantineTub);
        spend(990, 'net and cup of its own', 'gear', quarantineTub);
      }
    },
  };
}
