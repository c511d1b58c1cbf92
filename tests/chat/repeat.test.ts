import { ChatInputCommandInteraction, Client, type REST } from 'discord.js';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { runLeaf } from '../../commands/run.ts';
import type { App } from '../../src/chat/app.ts';
import { makeBoundary } from '../../src/chat/boundary.ts';
import { loggedBy } from '../../src/desk/repeat.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';
import { fixtureCommands } from './fixtureCommands.ts';

let bench: TestDesk;
let client: Client;
let answers: unknown[];

beforeEach(() => {
  bench = deskAt('2027-04-13T08:00:00Z');
  client = new Client({ intents: [] });
  answers = [];
  const post: REST['post'] = async (_route, request) => {
    answers.push(request?.body);
    return undefined;
  };
  client.rest.post = post;
});
afterEach(() => bench.close());

const user = { id: '11', username: 'wren', discriminator: '0', avatar: null, global_name: null };

/** The same interaction as the service would deliver it. */
function interaction(id: string) {
  const raw = {
    id,
    application_id: '4',
    type: 2,
    token: 'secret',
    version: 1,
    guild_id: '1',
    channel: { id: '2', type: 0 },
    channel_id: '2',
    member: {
      user,
      roles: [],
      permissions: '32',
      flags: 0,
      joined_at: '2026-01-01T00:00:00Z',
      deaf: false,
      mute: false,
    },
    entitlements: [],
    authorizing_integration_owners: { '0': '1' },
    app_permissions: '0',
    data: { id: '9', name: 'note', type: 1, options: [{ name: 'text', type: 3, value: 'A4 changed' }] },
  };
  return Reflect.construct(ChatInputCommandInteraction, [client, raw]) as ChatInputCommandInteraction;
}

function boundary() {
  const { desk } = bench;
  const app: App = {
    commands: fixtureCommands,
    runLeaf,
    press: async () => ({}),
    isSlow: () => false,
    complete: () => [],
    contextFor: (by, owner) => ({
      desk,
      by,
      owner,
      now: desk.now(),
      keepPhoto: async () => ({ ok: false, cause: 'none' }),
      demoClock: null,
    }),
    partners: desk.store.settings.partners,
    chosenChannel: () => null,
    loggedBy: (key) => loggedBy(desk, key),
    worked: () => undefined,
  };
  const quiet = { info: () => {}, warn: () => {}, error: () => {} };
  return makeBoundary(app, { guildId: '1', channelId: '2' }, quiet);
}

it('an interaction delivered twice to one process is worked on once', async () => {
  const only = boundary();
  only.take(interaction('100'));
  only.take(interaction('100'));
  await only.settled();
  expect(bench.desk.store.entries.latest(9)).toHaveLength(1);
  expect(answers).toHaveLength(1);
  only.take(interaction('101'));
  await only.settled();
  expect(bench.desk.store.entries.latest(9)).toHaveLength(2);
});

it('an interaction that an earlier process wrote is said to be logged already, in private', async () => {
  const first = boundary();
  first.take(interaction('100'));
  await first.settled();
  const second = boundary();
  second.take(interaction('100'));
  await second.settled();
  expect(bench.desk.store.entries.latest(9)).toHaveLength(1);
  expect(answers[1]).toMatchObject({ type: 4, data: { flags: 64, content: '**Already logged**\nA4 changed' } });
});
