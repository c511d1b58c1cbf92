import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type After, keepPostsFresh } from '../../src/jobs/freshPosts.ts';
import { postFor } from '../../src/jobs/posts.ts';
import { runDue } from '../../src/jobs/runDue.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';
import { makeChannel, silentLog } from './channel.ts';

/** Waits that end when the test says so, the first one first. */
function handTimer() {
  const waits: { readonly ms: number; readonly work: () => void }[] = [];
  const after: After = (ms, work) => {
    const wait = { ms, work };
    waits.push(wait);
    return { cancel: () => void waits.splice(waits.indexOf(wait), 1) };
  };
  return {
    after,
    waits,
    /** Ends the first wait and lets what it began come to its end. */
    ring: async (): Promise<void> => {
      waits.shift()?.work();
      await new Promise(setImmediate);
    },
  };
}

let at: Keyboard;
let channel: ReturnType<typeof makeChannel>;
let timer: ReturnType<typeof handTimer>;
let fresh: ReturnType<typeof keepPostsFresh>;

/** The morning of Tuesday 13 April 2027 is posted; four tubs whose change is due are on the rota. */
beforeEach(async () => {
  at = keyboardAt('2027-04-04T18:00:00Z');
  await at.begin('A1-A4');
  at.advance({ days: 8 });
  at.desk.store.settings.startedAt(at.desk.now());
  at.advance({ hours: 12 });
  channel = makeChannel();
  timer = handTimer();
  await runDue(at.desk.now(), {
    desk: at.desk,
    posting: channel.posting,
    postOf: (slot, late) => postFor(at.desk, slot, late),
    log: silentLog,
  });
  fresh = keepPostsFresh({ desk: at.desk, posting: channel.posting, log: silentLog, after: timer.after });
});
afterEach(async () => {
  await fresh.stop();
  at.close();
});

const morning = () => {
  const [post] = channel.messages;
  if (post === undefined) throw new Error('no morning post');
  return post;
};
const said = (): string => [morning().card.title, ...(morning().card.why ?? [])].join('\n');

/** The tub whose change stands first in the post. */
const changed = async (tub: string, name = 'wren'): Promise<void> => {
  await at.type('change log', { tub }, { name });
  fresh.worked();
};

describe('the morning post', () => {
  it('says what was done and by whom when it is logged by a command elsewhere', async () => {
    expect(said()).not.toContain('Done by');
    await changed('A2', 'alder');
    expect(morning().edits).toBe(0);
    await timer.ring();
    expect(said()).toContain('Done by alder: water change A2');
    expect(channel.keys()).toEqual(['morning-2027-04-13']);
  });

  it('is edited once for several acts in a row, the last state wins, and rests between edits', async () => {
    await changed('A1');
    await changed('A2');
    expect(timer.waits.map(({ ms }) => ms)).toEqual([1000]);
    await timer.ring();
    expect(morning().edits).toBe(1);
    await changed('A3');
    await changed('A4');
    expect(timer.waits.map(({ ms }) => ms)).toEqual([5000]);
    expect(morning().edits).toBe(1);
    await timer.ring();
    expect(morning().edits).toBe(2);
    expect(said()).toMatch(/Done by wren: .*water change A1, A2, A3 and A4/);
  });

  it('is left alone when nothing was logged, or nothing that it speaks of', async () => {
    fresh.worked();
    expect(timer.waits).toEqual([]);
    await changed('A1');
    await timer.ring();
    await timer.ring();
    await at.type('topup', { tub: 'A1', litres: 1 });
    await at.type('undo');
    fresh.worked();
    await timer.ring();
    const { edits } = morning();
    await timer.ring();
    await at.type('cost', { amount: 3, what: 'twine' });
    fresh.worked();
    await timer.ring();
    expect(morning().edits).toBe(edits);
  });

  it('takes back what was undone', async () => {
    await changed('A1');
    await timer.ring();
    await timer.ring();
    const asked = await at.type('undo');
    await at.tap(asked, 'Undo it');
    fresh.worked();
    await timer.ring();
    expect(said()).not.toContain('Done by');
  });

  it('is brought up to date with the next act where an edit did not get through', async () => {
    channel.reach.editing = false;
    await changed('A1');
    await timer.ring();
    expect(said()).not.toContain('Done by');
    channel.reach.editing = true;
    await timer.ring();
    await changed('A2');
    await timer.ring();
    expect(said()).toContain('Done by wren: water change A1 and A2');
  });

  it('of yesterday stays as it was', async () => {
    at.advance({ days: 1 });
    await changed('A1');
    await timer.ring();
    expect(morning().edits).toBe(0);
  });

  it('is not touched any more once the bot stops', async () => {
    await changed('A1');
    await fresh.stop();
    expect(timer.waits).toEqual([]);
    await changed('A2');
    expect(timer.waits).toEqual([]);
    expect(morning().edits).toBe(0);
  });
});

it('keeps saying that it came late, and what is folded into it', async () => {
  const needs = {
    desk: at.desk,
    posting: channel.posting,
    postOf: (slot: Parameters<typeof postFor>[1], late: number) => postFor(at.desk, slot, late),
    log: silentLog,
  };
  at.advance({ days: 2, hours: 2 });
  await runDue(at.desk.now(), needs);
  const post = channel.messages.at(-1);
  expect(post?.card.title).toMatch(/^Morning, Thu 15 Apr \(3 hours late\)/);
  expect(post?.card.why?.[0]).toMatch(/^The bot was off:/);
  await changed('A1');
  await timer.ring();
  expect(post?.edits).toBe(1);
  expect(post?.card.title).toMatch(/^Morning, Thu 15 Apr \(3 hours late\)/);
  expect(post?.card.why?.[0]).toMatch(/^The bot was off:/);
});
