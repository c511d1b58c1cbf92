import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Ctx } from '../../commands/command.ts';
import { demoCommands } from '../../commands/index.ts';
import { runLeaf } from '../../commands/run.ts';
import { isRegion, publicHolidays } from '../../src/calendar/index.ts';
import type { Desk } from '../../src/desk/index.ts';
import { type Instant, instantOf, plusMs } from '../../src/domain/index.ts';
import { databaseFile, openStore } from '../../src/store/open.ts';

/** When the fuzzed business stands: a dispatch day, between two holidays. */
const startsAt = instantOf(new Date('2027-04-13T08:00:00Z'));

export interface Someone {
  readonly userId: string;
  readonly name: string;
  readonly bot: boolean;
  /** Has the Manage Server permission. */
  readonly manages: boolean;
}

const someone = (id: number, name: string, more: Partial<Someone> = {}): Someone => ({
  userId: String(100_000_000_000_000_000n + BigInt(id)),
  name,
  bot: false,
  manages: false,
  ...more,
});

/** wren owns, alder is a partner, rook may manage the server, kestrel is a stranger and robin a program. */
export const people = {
  wren: someone(1, 'wren'),
  alder: someone(2, '_al_ *der*'),
  rook: someone(3, 'rook', { manages: true }),
  kestrel: someone(4, 'kestrel'),
  robin: someone(5, 'robin', { bot: true }),
} as const;

/** A business in a folder of its own that people act on; its clock stands until it is put on. */
export interface World {
  readonly desk: Desk;
  readonly file: string;
  readonly demoClock: NonNullable<Ctx['demoClock']>;
  wait(minutes: number): void;
  contextFor(who: Someone, owner: boolean): Ctx;
  close(): void;
}

function openWorld(folder: string, keyStem: string): World {
  const store = openStore(folder);
  let now = startsAt;
  let keys = 0;
  const desk: Desk = {
    store,
    now: () => now,
    machineZone: 'Europe/Amsterdam',
    holidays: (region, year) => (isRegion(region) ? publicHolidays(region, year) : []),
    isRegion,
  };
  store.settings.startedAt(now);
  const demoClock = {
    advanceTo: async (to: Instant) => {
      now = to;
      return { posts: 0 };
    },
  };
  return {
    desk,
    file: join(folder, databaseFile),
    demoClock,
    wait: (minutes) => {
      now = plusMs(now, minutes * 60_000);
    },
    contextFor: ({ userId, name }, owner) => {
      keys += 1;
      return {
        desk,
        by: { userId, name, key: `${keyStem}-${keys}` },
        owner,
        now,
        keepPhoto: async ({ contentType }) =>
          contentType === 'image/jpeg' ? { ok: true, value: '41.jpg' } : { ok: false, cause: 'it is not a photo' },
        demoClock,
      };
    },
    close: () => store.close(),
  };
}

const { wren, alder } = people;

/** What the business did before: every kind of fact, and names that a message must not trip over. */
const before: readonly (readonly [path: string, options: Readonly<Record<string, unknown>>])[] = [
  ['setup partner', { partner: wren, share: 60 }],
  ['setup partner', { partner: alder, never: 'Feed' }],
  ['setup business', { name: 'Moss & Reed', timezone: 'Europe/Amsterdam', region: 'NL', currency: 'EUR' }],
  ['setup line', { line: 'jade', price: 2.5, 'hold-back': 10 }],
  ['setup line', { line: 'snow', price: 3 }],
  ['setup line', { line: '**r_e_d** <@1>' }],
  ['setup outlet', { outlet: 'market', percent: 8, fixed: 0.35, 'on-postage': true }],
  ['setup water', { 'source-nitrate': 5, 'source-tds': 180 }],
  ['tub add', { name: 'A1-A6', line: 'jade', litres: 30 }],
  ['tub add', { name: 'B1-B3', line: 'snow', litres: 25, role: 'raising' }],
  ['tub add', { name: 'Große Wanne Nº 1', line: '**r_e_d** <@1>', litres: 60, rack: 'Küche' }],
  ['tub add', { name: 'C1', line: 'jade', litres: 20 }],
  ['tub retire', { tub: 'C1', reason: 'cracked' }],
  ['reading log', { tub: 'A1', temp: 21.5, ph: 7.4, gh: 8, kh: 4, tds: 240, nitrate: 20, when: '5 Apr 18:00' }],
  ['reading log', { tub: 'A2', temp: 22, ph: 7.8, ammonia: 0.5, nitrite: 0.1, nitrate: 40, when: 'yesterday 18:00' }],
  ['reading log', { tub: 'B1', nitrate: 60 }],
  ['change log', { tub: 'A1', percent: 20, when: '6 Apr 10:00' }],
  ['change log', { tub: 'A3', litres: 5, note: 'cloudy' }],
  ['topup', { tub: 'A1', litres: 1.5, water: 'soft' }],
  ['count log', { tub: 'A1', saleable: 80, juveniles: 30, berried: 6, method: 'full', when: '1 Apr 12:00' }],
  ['count log', { tub: 'A2', saleable: 60, method: 'dish', when: '2 Apr 12:00' }],
  ['count log', { tub: 'B1', saleable: 70, method: 'full', when: '2 Apr 12:00' }],
  ['count log', { tub: 'Große Wanne Nº 1', saleable: 45 }],
  ['move', { from: 'A1', to: 'A4', number: 10 }],
  ['loss', { tub: 'A2', number: 2, cause: 'heater stuck' }],
  ['hold', { tub: 'A4', reason: 'medicine', until: '1 May' }],
  ['goods', { name: 'moss', price: 4, add: 12, 'keep-at-least': 3, line: 'jade' }],
  ['season', { name: 'Winter', 'close-from': '15 Nov', 'close-to': '10 Mar' }],
  ['dispatch weather', { date: '14 Apr', area: 'Utrecht', low: 8, high: 17 }],
  ['sale add', { items: '20 jade + 2 moss', buyer: 'heron', area: 'Utrecht', 'dispatch-on': '14 Apr', postage: 7 }],
  ['sale add', { items: '10 snow', buyer: 'plover', 'dispatch-on': '13 Apr', outlet: 'market' }],
  ['sale add', { items: '10 jade, 10 snow', buyer: 'Ærø @everyone', price: 40, 'dispatch-on': '19 Apr' }],
  ['sale add', { items: '5 snow', 'dispatch-on': '13 Apr' }],
  ['waiting', { line: 'jade', number: 30, buyer: 'teal' }],
  ['waiting', { line: 'snow', number: 300, buyer: 'heron' }],
  ['sale add', { items: '12 jade', buyer: 'teal', 'dispatch-on': '13 Apr' }],
  ['sale paid', { sale: '1' }],
  ['sale paid', { sale: '2' }],
  ['sale paid', { sale: '5' }],
  ['dispatch sent', { sale: '2', tracking: 'RR123456785NL' }],
  ['dispatch sent', { sale: '5', when: '30 min ago' }],
  ['dispatch arrived', { sale: '5', dead: 9, delivered: '10 min ago' }],
  ['sale cancel', { sale: '4', reason: 'never paid' }],
  ['cost', { amount: 12.5, what: 'flakes', kind: 'feed', when: '2 Apr 12:00' }],
  ['cost', { amount: 30, what: '=1+1 for heron', kind: 'tub', tub: 'A1' }],
  ['chore add', { name: 'Clean the filters', 'every-days': 14, minutes: 6, scope: 'rack' }],
];

/** Builds the business once; each call of `fresh` gives a copy of it to act on. */
export async function worldTemplate(): Promise<{ fresh: () => World; remove: () => void }> {
  const root = mkdtempSync(join(tmpdir(), 'berried-fuzz-'));
  const world = openWorld(join(root, 'template'), 'before');
  for (const [path, options] of before) {
    const leaf = demoCommands.flatMap(({ leaves }) => leaves).find((known) => known.path === path);
    if (leaf === undefined) throw new Error(`no command /${path}`);
    const answer = await runLeaf(leaf, options, world.contextFor(wren, true));
    if (world.desk.store.entries.latest(1).length === 0 || /^Not /.test(answer.card?.title ?? '')) {
      throw new Error(`/${path} ${JSON.stringify(options)} was refused: ${JSON.stringify(answer.card)}`);
    }
  }
  world.close();
  return {
    fresh: () => {
      const folder = mkdtempSync(join(root, 'copy-'));
      copyFileSync(world.file, join(folder, databaseFile));
      const copy = openWorld(folder, 'then');
      return {
        ...copy,
        close: () => {
          copy.close();
          rmSync(folder, { recursive: true, force: true });
        },
      };
    },
    remove: () => rmSync(root, { recursive: true, force: true }),
  };
}
