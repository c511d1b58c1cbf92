import { inspect } from 'node:util';
import { search } from './search.ts';
import { worldTemplate } from './world.ts';

const usage = 'npm run fuzz [-- 60s | 500] [seed]: for so many seconds, or so many businesses; 60s if not said';

/** `npm run fuzz`: prints each kind of fault with the steps that lead to it; exit code 1 where there is any. */
const [, , extent = '60s', seedText = String(Date.now() % 1_000_000)] = process.argv;
const amount = /^(\d+)(s?)$/.exec(extent);
const seed = Number(seedText);
if (amount === null || !Number.isSafeInteger(seed)) {
  process.stderr.write(`${usage}\n`);
  process.exit(2);
}
const isTime = amount[2] === 's';
const tally = new Map<string, { tried: number; refused: number }>();
const template = await worldTemplate();
const faults = await search(template.fresh, {
  seed,
  runs: isTime ? Number.POSITIVE_INFINITY : Number(amount[1]),
  stepsEach: 60,
  ...(isTime && { withinMs: Number(amount[1]) * 1000 }),
  onPlayed: ({ name, refused }) => {
    const { tried, refused: before } = tally.get(name) ?? { tried: 0, refused: 0 };
    tally.set(name, { tried: tried + 1, refused: before + Number(refused) });
  },
});
template.remove();

const lines = [...tally].sort(([a], [b]) => a.localeCompare(b));
for (const [name, { tried, refused }] of lines) {
  process.stdout.write(
    `${name.padEnd(24)} ${String(tried).padStart(6)} tried ${String(refused).padStart(6)} refused\n`,
  );
}
for (const { where, what, steps, seed: own } of faults) {
  process.stdout.write(`\n${where}: ${what}\n  seed ${own}\n`);
  for (const step of steps)
    process.stdout.write(`  ${inspect(step, { breakLength: 160, depth: 6, maxStringLength: 200 })}\n`);
}
process.stdout.write(`\n${faults.length} kinds of fault, first seed ${seed}\n`);
process.exitCode = faults.length === 0 ? 0 : 1;
