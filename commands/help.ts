import { z } from 'zod';
import { atHand, businessOf, setupStep, tubById, tubsInUse } from '../src/desk/index.ts';
import {
  countForm,
  type HelpTopic,
  helpCard,
  helpTopics,
  homeCard,
  type Purpose,
  pickTubCard,
  readingForm,
  saleForm,
} from '../src/reply/index.ts';
import { type ActHandlers, type Answer, type Command, type Ctx, leaf } from './command.ts';
import { itemsExample } from './itemsExample.ts';
import { askUndo } from './undo.ts';
import { gone, voiceOf } from './voice.ts';

const topics = Object.keys(helpTopics) as [HelpTopic, ...HelpTopic[]];

/** The home card as it stands now. */
function home(ctx: Ctx): Answer {
  return { card: homeCard(setupStep(ctx.desk), atHand(ctx.desk), businessOf(ctx.desk).region !== null), private: true };
}

const show = leaf({
  path: 'help',
  description: 'The home card, or a topic',
  options: [{ name: 'topic', description: 'What about', type: 'text', choices: topics }],
  input: z.object({ topic: z.enum(topics).nullish() }),
  run: ({ topic }, ctx) =>
    topic === null || topic === undefined ? home(ctx) : { card: helpCard(topic), private: true },
});

export const help: Command = { name: 'help', description: show.description, leaves: [show] };

const purposeOf = (text: string): Purpose => (text === 'count' ? 'count' : 'reading');

export const helpActs = {
  home: (_, ctx) => home(ctx),
  'help-topic': (_, __, { values }) => {
    const topic = topics.find((known) => known === values[0]);
    return topic === undefined ? gone : { card: helpCard(topic), private: true };
  },
  'pick-tub': ({ purpose }, ctx) => ({ card: pickTubCard(tubsInUse(ctx.desk), purposeOf(purpose)), private: true }),
  'pick-rack': ({ purpose }, ctx, { values }) => {
    const tubs = tubsInUse(ctx.desk).filter(({ rack }) => rack === values[0]);
    return { settle: pickTubCard(tubs, purposeOf(purpose)) };
  },
  'picked-tub': ({ purpose }, ctx, { values }) => {
    const tub = tubById(ctx.desk, Number(values[0]));
    if (tub === undefined) return gone;
    return { form: purposeOf(purpose) === 'count' ? countForm(tub) : readingForm(voiceOf(ctx), tub) };
  },
  'undo-last': (_, ctx) => askUndo(ctx, undefined),
  'sale-form': (_, ctx) => ({ form: saleForm(itemsExample(ctx.desk)) }),
} satisfies Partial<ActHandlers>;
