import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { cruise, type ICruiseResult, type IForbiddenRuleType } from 'dependency-cruiser';
import extractTSConfig from 'dependency-cruiser/config-utl/extract-ts-config';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { demoCommands } from '../commands/index.ts';

const npm = (...names: string[]): string => `^node_modules/(@types/)?(${names.join('|')})(/|$)`;
const domain = '^src/domain/index[.]ts$';

/** Who may import whom, type-only imports counted: a layer, where it lives, and all that it may reach beside itself. */
const layers = [
  { name: 'domain', from: '^src/domain/', to: [npm('@date-fns/tz')] },
  { name: 'store', from: '^src/store/', to: [domain, npm('better-sqlite3'), '^(node:)?(fs|fs/promises|path)$'] },
  { name: 'calendar', from: '^src/calendar/', to: [domain, npm('date-holidays')] },
  { name: 'desk', from: '^src/desk/', to: [domain, '^src/store/', '^src/calendar/'] },
  { name: 'words', from: '^src/words/', to: [domain, npm('chrono-node')] },
  { name: 'reply', from: '^src/reply/', to: [domain] },
  {
    name: 'charts',
    from: '^src/charts/',
    to: [domain, npm('echarts', '@resvg/resvg-js', 'dejavu-fonts-ttf'), '^(node:)?(module|path)$'],
  },
  {
    name: 'commands',
    from: '^commands/',
    to: [domain, '^src/desk/index[.]ts$', '^src/reply/index[.]ts$', '^src/words/index[.]ts$', npm('zod')],
  },
  {
    name: 'jobs',
    from: '^src/jobs/',
    to: [domain, '^src/desk/index[.]ts$', '^src/reply/index[.]ts$', npm('node-cron')],
  },
  {
    name: 'chat',
    from: '^src/chat/',
    to: [
      domain,
      '^src/desk/index[.]ts$',
      '^src/reply/index[.]ts$',
      '^src/charts/index[.]ts$',
      '^commands/command[.]ts$',
      npm('discord[.]js', 'discord-api-types'),
      '^(node:)?(crypto|fs|fs/promises|path)$',
    ],
  },
  {
    name: 'local',
    from: '^src/local/',
    to: [npm('ws', 'zod', 'discord-api-spec', 'discord-api-types'), '^discord-api-spec/', '^(node:)?[a-z/]+$'],
  },
  { name: 'config and log', from: '^src/(config|log)[.]ts$', to: [npm('zod', 'pino'), domain, '^(node:)?[a-z/]+$'] },
  {
    name: 'seed',
    from: '^seed/',
    to: [
      '^src/desk/index[.]ts$',
      domain,
      '^src/store/open[.]ts$',
      '^src/calendar/index[.]ts$',
      '^(node:)?[a-z/]+$',
      npm('pino'),
    ],
  },
] as const;

const rules: IForbiddenRuleType[] = [
  ...layers.map(({ name, from, to }) => ({
    name: `${name} reaches only what it may`,
    severity: 'error' as const,
    from: { path: from },
    to: { pathNot: [from, ...to] },
  })),
  {
    name: 'only chat knows the chat library',
    severity: 'error',
    from: { pathNot: '^(src/chat|tests|node_modules)/' },
    to: { path: npm('discord[.]js') },
  },
  { name: 'nobody imports main', severity: 'error', from: {}, to: { path: '^src/main[.]ts$' } },
  { name: 'no circles', severity: 'error', from: {}, to: { circular: true } },
  {
    name: 'no orphans',
    severity: 'error',
    from: { orphan: true, pathNot: ['^src/(main|local/main)[.]ts$', '[.]d[.]ts$'] },
    to: {},
  },
];

const rooms = ['src', 'commands', 'seed'];

async function violations(baseDir: string): Promise<string[]> {
  const { output } = await cruise(
    rooms,
    {
      baseDir,
      validate: true,
      tsPreCompilationDeps: true,
      preserveSymlinks: true,
      doNotFollow: { path: 'node_modules' },
      ruleSet: { forbidden: rules },
    },
    {},
    { tsConfig: extractTSConfig('tsconfig.json') },
  );
  const { summary } = output as ICruiseResult;
  if (summary.totalCruised < 50) throw new Error(`only ${summary.totalCruised} files were looked at`);
  return summary.violations
    .filter(({ rule }) => rule.severity === 'error')
    .map(({ rule, from, to }) => `${rule.name}: ${from} → ${to}`);
}

/** One forbidden import per layer; half of them type-only. */
const planted = [
  {
    layer: 'domain',
    file: 'src/domain/planted.ts',
    text: "import { readFileSync } from 'node:fs';\nexport const planted = readFileSync;\n",
  },
  {
    layer: 'store',
    file: 'src/store/planted.ts',
    text: "import type { Card } from '../reply/index.ts';\nexport type Planted = Card;\n",
  },
  {
    layer: 'calendar',
    file: 'src/calendar/planted.ts',
    text: "import type { Desk } from '../desk/index.ts';\nexport type Planted = Desk;\n",
  },
  {
    layer: 'desk',
    file: 'src/desk/planted.ts',
    text: "import { button } from '../reply/index.ts';\nexport const planted = button;\n",
  },
  {
    layer: 'words',
    file: 'src/words/planted.ts',
    text: "import type { Desk } from '../desk/index.ts';\nexport type Planted = Desk;\n",
  },
  {
    layer: 'reply',
    file: 'src/reply/planted.ts',
    text: "import type { Desk } from '../desk/index.ts';\nexport type Planted = Desk;\n",
  },
  {
    layer: 'charts',
    file: 'src/charts/planted.ts',
    text: "import type { Card } from '../reply/index.ts';\nexport type Planted = Card;\n",
  },
  {
    layer: 'commands',
    file: 'commands/planted.ts',
    text: "import type { Store } from '../src/store/open.ts';\nexport type Planted = Store;\n",
  },
  {
    layer: 'jobs',
    file: 'src/jobs/planted.ts',
    text: "import type { Client } from 'discord.js';\nexport type Planted = Client;\n",
  },
  {
    layer: 'chat',
    file: 'src/chat/planted.ts',
    text: "import type { Store } from '../store/open.ts';\nexport type Planted = Store;\n",
  },
  {
    layer: 'local',
    file: 'src/local/planted.ts',
    text: "import type { Card } from '../reply/index.ts';\nexport type Planted = Card;\n",
  },
  {
    layer: 'seed',
    file: 'seed/planted.ts',
    text: "import type { Card } from '../src/reply/index.ts';\nexport type Planted = Card;\n",
  },
];

describe('the import rule', () => {
  test('holds everywhere', async () => {
    expect(await violations(process.cwd())).toEqual([]);
  });

  describe('bites', () => {
    let found: string[] = [];
    const copy = mkdtempSync(join(tmpdir(), 'berried-planted-'));
    beforeAll(async () => {
      for (const room of rooms) cpSync(room, join(copy, room), { recursive: true });
      symlinkSync(resolve('node_modules'), join(copy, 'node_modules'));
      for (const { file, text } of planted) writeFileSync(join(copy, file), text);
      found = await violations(copy);
    });
    afterAll(() => rmSync(copy, { recursive: true, force: true }));
    test.each(planted)('in $layer', ({ layer, file }) => {
      expect(found).toContainEqual(expect.stringContaining(`${layer} reaches only what it may: ${file}`));
    });
  });
});

/** The text of every source file below a room, by path. */
const textsIn = (room: string): [string, string][] =>
  (readdirSync(room, { recursive: true }) as string[])
    .filter((file) => file.endsWith('.ts'))
    .map((file) => [`${room}/${file}`, readFileSync(join(room, file), 'utf8')]);

test('only the desk reaches the store through a desk', () => {
  const rooms = ['commands', 'src/chat', 'src/jobs', 'src/reply', 'seed'];
  const reaching = rooms.flatMap(textsIn).filter(([, text]) => /\bdesk\.store\b|\{ store \} = .*desk/.test(text));
  expect(reaching.map(([path]) => path)).toEqual([]);
});

test('the domain has no clock and no chance of its own', () => {
  const asking = textsIn('src/domain').filter(([, text]) => /Date\.now\(\)|new Date\(\)|Math\.random\(\)/.test(text));
  expect(asking.map(([path]) => path)).toEqual([]);
});

test('every file that makes a command stands in the list', () => {
  const making = textsIn('commands').filter(([, text]) => /^export const \w+: Command = /m.test(text));
  const names = making.map(([path]) => path.replace(/^commands\/|[.]ts$/g, ''));
  expect(demoCommands.map(({ name }) => name).sort()).toEqual(names.sort());
});
