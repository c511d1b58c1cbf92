import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type Answer, type Command, type Ctx, leaf } from '../../commands/command.ts';
import { formAgain, keepForm } from '../../commands/keptForms.ts';
import { again, isSlowAgain, runLeaf } from '../../commands/run.ts';
import { log } from '../../src/desk/desk.ts';
import { type ControlRow, type Press, press } from '../../src/reply/index.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T08:00:00Z');
});
afterEach(() => bench.close());

const ctxOf = (name: string, owner = false): Ctx => ({
  desk: bench.desk,
  by: bench.by(name),
  owner,
  now: bench.desk.now(),
  keepPhoto: async () => ({ ok: false, cause: 'none' }),
  demoClock: null,
});

/** Refuses °F, offers °C, the other command, and itself again. */
const reading = leaf({
  path: 'reading log',
  description: 'd',
  options: [
    { name: 'tub', description: 'd', type: 'text', required: true },
    { name: 'temp', description: 'd', type: 'number' },
  ],
  input: z.object({ tub: z.string(), temp: z.number().max(200) }),
  run: ({ tub, temp }, ctx): Answer => {
    if (temp <= 40) {
      log(ctx.desk, ctx.by, 'reading', `${tub} ${temp}`, () => {});
      return { card: { title: `${tub}: ${temp}` } };
    }
    const offers = [
      { label: 'Log 22.2 *°C*', patch: { temp: 22.2 } },
      { label: 'Set the units', path: 'setup units', patch: { units: 'us' } },
      { label: 'Half of it', patch: { temp: temp / 2 } },
    ];
    return { private: true, card: { title: 'Not logged', why: ['72 °C cannot be a tub'], offers } };
  },
});
const units = leaf({
  path: 'setup units',
  description: 'd',
  options: [],
  ownerOnly: true,
  slow: 'asker',
  input: z.strictObject({ units: z.string() }),
  run: ({ units }, ctx): Answer => {
    log(ctx.desk, ctx.by, 'business', units, () => {});
    return { private: true, card: { title: units } };
  },
});
const commands: Command[] = [
  { name: 'reading', description: 'd', leaves: [reading] },
  { name: 'setup', description: 'd', leaves: [units] },
];

const pressesIn = (rows: readonly ControlRow[] = []): Press[] =>
  rows.flatMap((row) => row.map((control) => control.press));
const entries = () => bench.desk.store.entries.latest(50).map(({ summary, who }) => `${summary} by ${who.name}`);

async function ask(temp = 72): Promise<{ draft: number; choice: number }[]> {
  const answer = await runLeaf(reading, { tub: 'A3', temp }, ctxOf('wren'));
  return pressesIn(answer.card?.controls).flatMap((each) => (each.act === 'again' ? [each.args] : []));
}
const choice = (found: { draft: number; choice: number }[], index: number) => {
  const args = found[index];
  if (args === undefined) throw new Error('no such button');
  return args;
};

describe('an offered button', () => {
  it('stands before a way out, and the card no longer carries offers', async () => {
    const { card } = await runLeaf(reading, { tub: 'A3', temp: 72 }, ctxOf('wren'));
    expect(pressesIn(card?.controls).map(({ act }) => act)).toEqual(['again', 'again', 'again', 'leave-it']);
    expect(card).not.toHaveProperty('offers');
  });

  it('writes the mended entry once, in the name of who pressed, and says so under the question', async () => {
    const args = choice(await ask(), 0);
    const answer = await again(args, ctxOf('alder'), commands);
    expect(answer).toMatchObject({
      card: { title: 'A3: 22.2' },
      settle: { title: 'Not logged', why: ['72 °C cannot be a tub', 'Taken: Log 22.2 *°C* (alder)'] },
    });
    expect(await again(args, ctxOf('wren'), commands)).toMatchObject({
      private: true,
      card: { title: 'That was answered already' },
    });
    expect(entries()).toEqual(['A3 22.2 by alder']);
  });

  it('does not write again when the first run ended between writing and forgetting', async () => {
    const args = choice(await ask(), 0);
    const draft = bench.desk.store.drafts.get(args.draft);
    await again(args, ctxOf('wren'), commands);
    if (draft === undefined) throw new Error('no draft');
    bench.desk.store.drafts.get = (id) => (id === args.draft ? draft : undefined);
    expect(await again(args, ctxOf('wren'), commands)).toMatchObject({ card: { title: 'That was answered already' } });
    expect(entries()).toHaveLength(1);
  });

  it('works although an older question had the same number', async () => {
    const first = choice(await ask(), 0);
    await again(first, ctxOf('wren'), commands);
    const second = choice(await ask(), 0);
    const draft = bench.desk.store.drafts.get(second.draft);
    if (draft === undefined) throw new Error('no draft');
    bench.desk.store.drafts.get = () => ({ ...draft, id: first.draft });
    await again(first, ctxOf('wren'), commands);
    expect(entries()).toHaveLength(2);
  });

  it('may ask on', async () => {
    const asked = await again(choice(await ask(160), 2), ctxOf('wren'), commands);
    expect(asked.card?.title).toBe('Not logged');
    const [next] = pressesIn(asked.card?.controls).slice(2);
    if (next?.act !== 'again') throw new Error('no button');
    expect((await again(next.args, ctxOf('wren'), commands)).card?.title).toBe('A3: 40');
    expect(entries()).toEqual(['A3 40 by wren']);
  });

  it("may run another command, with the patch alone, under that command's rules", async () => {
    const args = choice(await ask(), 1);
    expect(isSlowAgain(press('again', args), bench.desk, commands)).toBe(true);
    expect(isSlowAgain(press('again', { ...args, choice: 0 }), bench.desk, commands)).toBe(false);
    expect(isSlowAgain(press('home', {}), bench.desk, commands)).toBe(false);
    expect(await again(args, ctxOf('alder'), commands)).toMatchObject({
      private: true,
      card: { title: expect.stringContaining('owner') },
    });
    expect((await again(args, ctxOf('wren', true), commands)).card?.title).toBe('us');
    expect(entries()).toEqual(['us by wren']);
  });
});

describe('options that do not parse', () => {
  it('are named, with what belongs there', async () => {
    const answer = await runLeaf(reading, { temp: 201 }, ctxOf('wren'));
    expect(answer).toMatchObject({ private: true, card: { why: ['tub: a text belongs here', 'temp: at most 200'] } });
  });

  it('are told from bugs', async () => {
    const broken = leaf({ ...reading, input: z.object({}), run: () => ({ card: { title: z.string().parse(1) } }) });
    await expect(runLeaf(broken, {}, ctxOf('wren'))).rejects.toThrow(z.ZodError);
  });
});

it('a form opens again with what was typed, field by field, until it is too old', async () => {
  const field = { label: 'Lines', lines: 'many', value: 'A1' } as const;
  const open = (opener: Press): Answer => ({
    form: {
      title: 'Sheet',
      press: opener,
      fields: [
        { ...field, id: 'lines' },
        { ...field, id: 'note' },
      ],
    },
  });
  const { press: correct } = keepForm(ctxOf('wren'), press('sheet-form', { rack: 'left' }), { lines: 'A1 no3' });
  if (correct.act !== 'form-again') throw new Error('another act');
  const { form } = await formAgain(correct.args, ctxOf('wren'), open);
  expect(form?.press).toEqual(press('sheet-form', { rack: 'left' }));
  expect(form?.fields.map(({ value }) => value)).toEqual(['A1 no3', 'A1']);
  bench.desk.store.drafts.dropBefore(bench.advance({ days: 8 }));
  expect(await formAgain(correct.args, ctxOf('wren'), open)).toMatchObject({
    private: true,
    card: { title: 'What was typed is gone' },
  });
});
