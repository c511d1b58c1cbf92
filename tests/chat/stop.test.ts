import { afterEach, expect, it } from 'vitest';
import { z } from 'zod';
import { leaf } from '../../commands/command.ts';
import { log } from '../../src/desk/desk.ts';
import { FIXED_IDS } from '../../src/local/ids.ts';
import { fixtureParts, type LiveBot, startLiveBot } from './liveBot.ts';

function latch() {
  let open = (): void => {};
  const isOpen = new Promise<void>((resolve) => {
    open = resolve;
  });
  return { open: () => open(), isOpen };
}

let live: LiveBot;
afterEach(() => live.close());

it('what was begun is finished and answered before the bot goes, jobs first, and stopping twice is stopping once', async () => {
  const gate = latch();
  const begun = latch();
  const order: string[] = [];
  const waiting = leaf({
    path: 'wait',
    description: 'Waits at a gate',
    options: [],
    input: z.object({}),
    async run(_, ctx) {
      begun.open();
      await gate.isOpen;
      log(ctx.desk, ctx.by, 'cost', 'waited', () => order.push('written'));
      return { card: { title: 'Waited' } };
    },
  });
  live = await startLiveBot({
    ...fixtureParts,
    commands: [{ name: 'wait', description: 'Waits at a gate', leaves: [waiting] }],
    startJobs: () => ({
      advanceTo: async () => ({ posts: 0 }),
      worked: () => undefined,
      async stop() {
        order.push('jobs stopped');
        gate.open();
      },
    }),
  });
  const answered = live.chat.as(FIXED_IDS.owner).command('wait');
  await begun.isOpen;
  await Promise.all([live.bot().stop(), live.bot().stop()]);
  expect((await answered).text).toContain('**Waited**');
  expect(order).toEqual(['jobs stopped', 'written']);
  expect(live.endings).toEqual([]);
  expect((await live.chat.people()).isBotConnected).toBe(false);
});

it('a connection that the service closes for good ends the bot once, with the reason', async () => {
  live = await startLiveBot();
  const drop = () =>
    fetch(`${live.local.pageUrl}local/gateway`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ action: 'drop', code: 4004 }),
    });
  expect((await drop()).status).toBe(204);
  expect(await live.ended).toEqual({ sentence: expect.stringContaining('DISCORD_TOKEN'), mayRetry: false });
  expect(live.endings).toHaveLength(1);
});
