import { afterEach, describe, expect, it } from 'vitest';
import { clock } from '../../commands/clock.ts';
import type { Answer, Ctx } from '../../commands/command.ts';
import type { Instant } from '../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';

const opened: TestDesk[] = [];
afterEach(() => {
  for (const test of opened.splice(0)) test.close();
});

/** Tuesday 13 April 2027, 10:00 in Amsterdam. */
function demo() {
  const test = deskAt('2027-04-13T08:00:00Z');
  opened.push(test);
  const asked: string[] = [];
  const ctx: Ctx = {
    desk: test.desk,
    by: test.by('wren'),
    owner: true,
    now: test.desk.now(),
    keepPhoto: () => Promise.resolve({ ok: false, cause: 'no photos here' }),
    demoClock: {
      advanceTo: (to: Instant) => {
        asked.push(to);
        test.advance({ minutes: (Date.parse(to) - Date.parse(test.desk.now())) / 60_000 });
        return Promise.resolve({ posts: 0 });
      },
    },
  };
  return { asked, run: (raw: Record<string, string>, more: Partial<Ctx> = {}) => runIn({ ...ctx, ...more }, raw) };
}

async function runIn(ctx: Ctx, raw: Record<string, string>): Promise<Answer> {
  const [leaf] = clock.leaves;
  if (leaf === undefined) throw new Error('no leaf');
  return leaf.handle(raw, ctx);
}

describe('/clock', () => {
  it.each([
    [{ forward: '3 days' }, '2027-04-16T08:00:00.000Z'],
    [{ forward: '90 minutes' }, '2027-04-13T09:30:00.000Z'],
    [{ forward: '1 day and 6 hours' }, '2027-04-14T14:00:00.000Z'],
    [{ forward: '2 w' }, '2027-04-27T08:00:00.000Z'],
    [{ to: '2027-05-01' }, '2027-04-30T22:00:00.000Z'],
    [{ to: 'tomorrow' }, '2027-04-13T22:00:00.000Z'],
    [{ to: 'tomorrow 08:00' }, '2027-04-14T06:00:00.000Z'],
    [{ to: '18:00' }, '2027-04-13T16:00:00.000Z'],
    [{ to: '09:00' }, '2027-04-14T07:00:00.000Z'],
    [{ to: '2027-05-01T06:30:00Z' }, '2027-05-01T06:30:00.000Z'],
    [{ to: '1 Dec' }, '2027-11-30T23:00:00.000Z'],
  ])('goes by %j to %s', async (raw, to) => {
    const { asked, run } = demo();
    const { card } = await run(raw as Record<string, string>);
    expect(asked).toEqual([to]);
    expect(card?.title).toMatch(/^It is /);
  });

  it.each([
    [{ to: '2027-04-12' }, 'The clock only goes forward'],
    [{ to: 'yesterday 18:00' }, 'The clock only goes forward'],
    [{ forward: '0 days' }, 'The clock only goes forward'],
    [{ forward: 'some time' }, 'not understood'],
    [{ forward: '-3 days' }, 'not understood'],
    [{ to: 'soon' }, 'not understood'],
    [{ forward: '2 years' }, 'not understood'],
    [{ forward: '400 days' }, '400 days'],
  ])('refuses %j', async (raw, said) => {
    const { asked, run } = demo();
    const answer = await run(raw as Record<string, string>);
    expect(answer.private).toBe(true);
    expect(answer.card?.title).toContain(said);
    expect(asked).toEqual([]);
  });

  it('shows the time where nothing is asked, and leaves the real clock alone', async () => {
    const { asked, run } = demo();
    expect((await run({})).card?.title).toBe('It is Tue 13 Apr 10:00');
    expect((await run({ forward: '3 days' }, { demoClock: null })).private).toBe(true);
    expect(asked).toEqual([]);
  });
});
