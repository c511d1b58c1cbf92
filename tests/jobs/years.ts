import { simulateYear } from './simulatedYear.ts';
import { faultsOf } from './yearFaults.ts';

const usage = 'npm run years [-- 20] [seed]: so many years of restarts, kills and weeks off; 20 if not said';
const zones = [
  ...['Europe/Amsterdam', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kolkata', 'Pacific/Chatham'],
  ...['America/St_Johns', 'Pacific/Auckland', 'Africa/Casablanca', 'America/Santiago', 'UTC'],
];

/** `npm run years`: prints each fault with the zone and seed that lead to it; exit code 1 where there is any. */
const [, , yearsText = '20', seedText = String(Date.now() % 1_000_000)] = process.argv;
const [years, seed] = [Number(yearsText), Number(seedText)];
if (!Number.isSafeInteger(years) || years < 1 || !Number.isSafeInteger(seed)) {
  process.stderr.write(`${usage}\n`);
  process.exit(2);
}
let faults = 0;
let kills = 0;
for (let index = 0; index < years; index += 1) {
  const zone = zones[index % zones.length] ?? 'UTC';
  const year = await simulateYear(zone, seed + index);
  for (const number of year.kills.values()) kills += number;
  for (const fault of faultsOf(year)) {
    faults += 1;
    process.stdout.write(`${zone}, seed ${seed + index}: ${fault}\n`);
  }
}
process.stdout.write(`${years} years, ${kills} kills, ${faults} faults, first seed ${seed}\n`);
process.exitCode = faults === 0 ? 0 : 1;
