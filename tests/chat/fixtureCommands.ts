import { z } from 'zod';
import { type ActHandlers, type Answer, type Command, type Ctx, leaf } from '../../commands/command.ts';
import { formAgain, keepForm } from '../../commands/keptForms.ts';
import { again, leaveIt } from '../../commands/run.ts';
import { log } from '../../src/desk/desk.ts';
import { day } from '../../src/domain/index.ts';
import { button, type Card, press } from '../../src/reply/index.ts';

const write = (ctx: Ctx, summary: string): number => log(ctx.desk, ctx.by, 'cost', summary, () => {});

/** A command for each way of answering; what they write are bare entries. */
export const fixtureCommands: readonly Command[] = [
  {
    name: 'note',
    description: 'Writes an entry',
    leaves: [
      leaf({
        path: 'note',
        description: 'Writes an entry',
        options: [
          { name: 'text', description: 'What', type: 'text', required: true, complete: 'tub' },
          { name: 'litres', description: 'How much', type: 'number' },
          { name: 'pieces', description: 'How many', type: 'integer' },
          { name: 'sure', description: 'Whether', type: 'boolean' },
          { name: 'partner', description: 'Who', type: 'member' },
          { name: 'role', description: 'Which', type: 'text', choices: ['breeding', 'selling'] },
        ],
        input: z.object({
          text: z.string().max(20),
          litres: z.number().nullish(),
          pieces: z.number().nullish(),
          sure: z.boolean().nullish(),
          role: z.string().nullish(),
          partner: z.object({ userId: z.string(), name: z.string(), bot: z.boolean() }).nullish(),
        }),
        run: (input, ctx) => {
          write(ctx, input.text);
          const why = [JSON.stringify({ ...input, by: ctx.by.name, owner: ctx.owner })];
          return { card: { title: 'Noted', why, controls: [[button('Stock', press('stock', {}))]] } };
        },
      }),
    ],
  },
  {
    name: 'try',
    description: 'Answers in one way or another',
    leaves: [
      leaf({
        path: 'try question',
        description: 'Asks before it writes',
        options: [{ name: 'text', description: 'What', type: 'text', required: true }],
        input: z.object({ text: z.string(), sure: z.boolean().optional() }),
        run: ({ text, sure }, ctx) => {
          if (sure !== true) {
            const offers = [{ label: 'Log it all the same', patch: { sure: true } }];
            return { private: true, card: { title: 'Not logged: are you sure', offers } };
          }
          return { card: { title: `Logged ${text} as entry ${write(ctx, text)}` } };
        },
      }),
      leaf({
        path: 'try pondering',
        description: 'Asks before it writes, and takes its time for both',
        options: [],
        slow: 'asker',
        input: z.object({ sure: z.boolean().optional() }),
        run: ({ sure }, ctx) =>
          sure === true
            ? { card: { title: `Pondered as entry ${write(ctx, 'pondered')}` } }
            : { private: true, card: { title: 'Not yet', offers: [{ label: 'Go on', patch: { sure: true } }] } },
      }),
      leaf({
        path: 'try owner',
        description: 'For the owner',
        options: [],
        ownerOnly: true,
        input: z.object({}),
        run: () => ({ private: true, card: { title: 'Settings' } }),
      }),
      leaf({
        path: 'try slow',
        description: 'Takes its time',
        options: [{ name: 'private', description: 'Whether', type: 'boolean', required: true }],
        slow: 'channel',
        input: z.object({ private: z.boolean() }),
        run: (input) => ({ private: input.private, card: { title: 'There it is' } }),
      }),
      leaf({
        path: 'try alone',
        description: 'Takes its time for the asker',
        options: [],
        slow: 'asker',
        input: z.object({}),
        run: () => ({ private: true, card: { title: 'For you', files: [{ name: 'list.csv', text: 'a,b\n1,2\n' }] } }),
      }),
      leaf({
        path: 'try chart',
        description: 'Shows a chart',
        options: [{ name: 'private', description: 'Whether', type: 'boolean' }],
        input: z.object({ private: z.boolean().nullish() }),
        run: (input) => ({ private: input.private === true, card: chartCard }),
      }),
      leaf({
        path: 'try breaking',
        description: 'Has a bug',
        options: [{ name: 'late', description: 'After it wrote', type: 'boolean', required: true }],
        input: z.object({ late: z.boolean() }),
        run: ({ late }, ctx) => {
          if (late) write(ctx, 'A1 changed 5 L');
          throw new Error('planted bug with a secret');
        },
      }),
      leaf({
        path: 'try form',
        description: 'Opens a form',
        options: [],
        input: z.object({}),
        run: () => sheetForm,
      }),
    ],
  },
];

export const chartCard: Card = {
  title: 'A3: nitrate',
  chart: {
    title: 'A3 nitrate',
    unit: 'mg/L',
    zone: 'Europe/Amsterdam',
    fromZero: true,
    series: [
      {
        name: 'nitrate',
        kind: 'steps',
        points: [
          { at: day('2027-04-06'), value: 10 },
          { at: day('2027-04-13'), value: 20 },
        ],
      },
    ],
  },
  controls: [[button('Rota', press('rota-today', {}))]],
};

const sheetForm: Answer = {
  form: {
    title: 'Readings',
    press: press('sheet-send', { rack: 'left' }),
    fields: [{ id: 'lines', label: 'Lines', hint: 'A tub a line', lines: 'many', value: 'A1', required: true }],
  },
};

const some: Partial<ActHandlers> = {
  again: (args, ctx) => again(args, ctx, fixtureCommands),
  'leave-it': () => leaveIt(),
  stock: () => ({ settle: { title: 'Settled' }, card: { title: 'Stock as asked' } }),
  'rota-today': () => ({ settle: chartCard }),
  home: () => ({ settle: { title: 'Home settled', controls: [[button('Home', press('home', {}))]] } }),
  'sheet-form': () => sheetForm,
  'sheet-send': (_args, ctx, { fields }) => {
    const lines = Object.values(fields).join('\n');
    if (lines.includes('no3')) return { card: { title: `Logged ${lines} as entry ${write(ctx, lines)}` } };
    const correct = keepForm(ctx, press('sheet-form', { rack: 'left' }), fields);
    return { private: true, card: { title: 'Not logged: no value', controls: [[correct]] } };
  },
  'form-again': (args, ctx) => formAgain(args, ctx, () => sheetForm),
};

/** The acts that the tests press; the others have no control to press them with. */
export const fixtureActs = some as ActHandlers;
