import { demoCommands } from '../../commands/index.ts';
import { runLeaf } from '../../commands/run.ts';
import { render } from '../../src/chat/render.ts';
import { businessOf, eveningPost, morningPost, weeklyPost } from '../../src/desk/index.ts';
import { eveningCard, morningCard, voiceFor, weeklyCard } from '../../src/reply/index.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';
import { benchCatches } from './catches.ts';
import { cpuMs } from './cpuMs.ts';
import { type Extent, loadHistory } from './load.ts';
import { benchRota } from './rota.ts';

const small: Extent = { tubs: 20, days: 365 };
const large: Extent = { tubs: 80, days: 3650 };
/** What is timed: a command with its options, or a post. */
const tasks: Readonly<Record<string, (test: TestDesk) => Promise<void>>> = {
  '/help': (test) => command(test, 'help', {}),
  '/stock': (test) => command(test, 'stock', {}),
  '/tub list': (test) => command(test, 'tub list', {}),
  '/tub show': (test) => command(test, 'tub show', { tub: 'A1' }),
  '/change plan': (test) => command(test, 'change plan', {}),
  '/reading log': (test) => command(test, 'reading log', { tub: 'A1', nitrate: 20, temp: 21.5 }),
  '/change log': (test) => command(test, 'change log', { tub: 'A2', litres: 5 }),
  '/rota today': (test) => command(test, 'rota today', {}),
  '/rota week': (test) => command(test, 'rota week', {}),
  '/rota done': (test) => command(test, 'rota done', { chore: 'look-round' }),
  '/sale list': (test) => command(test, 'sale list', {}),
  '/sale add': (test) => command(test, 'sale add', { items: '2 jade', buyer: 'heron' }),
  '/dispatch day': (test) => command(test, 'dispatch day', {}),
  '/cost': (test) => command(test, 'cost', { amount: 5, what: 'flakes', again: true }),
  '/money': (test) => command(test, 'money', {}),
  '/undo': (test) => command(test, 'undo', {}),
  'morning post': async ({ desk }) => {
    const post = morningPost(desk);
    render(morningCard(voiceFor(businessOf(desk), desk.now()), post, 0));
  },
  'evening post': async ({ desk }) => {
    const post = eveningPost(desk);
    if (post !== null) render(eveningCard(voiceFor(businessOf(desk), desk.now()), post, 0));
  },
  'weekly post': async ({ desk }) => {
    const post = weeklyPost(desk);
    render(weeklyCard(voiceFor(businessOf(desk), desk.now()), post, 0));
  },
};

async function command(
  { desk, by }: TestDesk,
  path: string,
  options: Readonly<Record<string, unknown>>,
): Promise<void> {
  const leaf = demoCommands.flatMap(({ leaves }) => leaves).find((known) => known.path === path);
  if (leaf === undefined) throw new Error(`no command /${path}`);
  const keepPhoto = async () => ({ ok: false as const, cause: 'no photos here' });
  const ctx = { desk, by: by('wren'), owner: true, now: desk.now(), keepPhoto, demoClock: null };
  const { card } = await runLeaf(leaf, options, ctx);
  if (card === undefined) throw new Error(`/${path} gave no card`);
  render(card);
}

function business(extent: Extent): TestDesk {
  const test = deskAt('2027-04-13T08:00:00Z');
  loadHistory(test.desk, extent);
  return test;
}

const words = ({ tubs, days }: Extent): string => `${tubs} tubs × ${Math.round(days / 365)} y`;
const cells = (...texts: string[]): string =>
  texts.map((text, nth) => (nth === 0 ? text.padEnd(14) : text.padStart(16))).join('');

/**
 * `npm run bench`: processor time of each task in a small young business and in a large old one, in the same run. The number of tubs is
 * four times as large, the history forty times: a ratio over four says that a task reads history that it does not need.
 */
const [few, many] = [business(small), business(large)];
process.stdout.write(`${cells('', words(small), words(large), 'ratio')}\n`);
for (const [name, task] of Object.entries(tasks)) {
  const [ms, other] = [await cpuMs(() => task(few)), await cpuMs(() => task(many))];
  process.stdout.write(`${cells(name, `${ms.toFixed(2)} ms`, `${other.toFixed(2)} ms`, (other / ms).toFixed(1))}\n`);
}
few.close();
many.close();
await benchRota();
await benchCatches();
