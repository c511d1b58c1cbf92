import { instantOf } from '../src/domain/index.ts';
import { hasDatabase, seedDemo } from './demo.ts';

/** The people of the try-out's chat service, who are to find themselves in the demo business. */
const users = {
  owner: { userId: '1100000000000000011', name: 'rowan' },
  partner: { userId: '1100000000000000012', name: 'linnet' },
} as const;

const folder = process.env['BERRIED_DATA'] || './data';
const typedNow = process.env['BERRIED_NOW'] || undefined;
const now = typedNow === undefined ? new Date() : new Date(typedNow);

const refuse = (sentence: string): void => {
  process.stderr.write(`${sentence}\n`);
  process.exitCode = 1;
};

if (hasDatabase(folder)) {
  refuse(`There is a database in ${folder} already: move it away or name another BERRIED_DATA first.`);
} else if (Number.isNaN(now.getTime())) {
  refuse('BERRIED_NOW must be an instant such as 2027-04-12T06:00:00Z.');
} else {
  const { first, last, acts, sales, parcels } = seedDemo({ folder, now: instantOf(now), users });
  process.stdout.write(
    `${folder} holds a demo business from ${first} to ${last}: ${acts} entries, ${sales} sales, ${parcels} parcels.\n`,
  );
}
