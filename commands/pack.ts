import { z } from 'zod';
import { businessOf, planPack } from '../src/desk/index.ts';
import { bagKinds, fahrenheitOf } from '../src/domain/index.ts';
import { noPackCard, packCard } from '../src/reply/index.ts';
import { type ActHandlers, type Command, leaf } from './command.ts';
import { number, optionalNumber } from './options.ts';
import { runLeaf } from './run.ts';
import { voiceOf } from './voice.ts';

const plan = leaf({
  path: 'pack',
  description: 'Bags for a parcel: how many, how much water, how long they are safe',
  options: [
    { name: 'number', description: 'Animals in all, extras too', type: 'integer', required: true },
    { name: 'length-mm', description: 'How long they are, mm; the saleable length if not said', type: 'number' },
    { name: 'hours', description: 'Hours to last; transit, slack and a day of delay if not said', type: 'number' },
    { name: 'temp', description: 'Air on the way, in your units; as warm as the tubs if not said', type: 'number' },
    { name: 'bag', description: 'Ordinary if not said', type: 'text', choices: bagKinds },
  ],
  input: z.object({
    number,
    'length-mm': optionalNumber,
    hours: optionalNumber,
    temp: optionalNumber,
    bag: z
      .enum(bagKinds)
      .nullish()
      .transform((kind) => kind ?? undefined),
  }),
  run: ({ 'length-mm': lengthMm, ...asked }, ctx) => {
    const planned = planPack(ctx.desk, { ...asked, lengthMm });
    return planned.ok
      ? { card: packCard(voiceOf(ctx), planned.value) }
      : { card: noPackCard(voiceOf(ctx), planned.fault), private: true };
  },
});

export const pack: Command = { name: 'pack', description: plan.description, leaves: [plan] };

export const packActs = {
  'bag-plan': ({ number: animals, mm, hours, airC, bag }, ctx) => {
    const inUnits = (tempC: number): number => (businessOf(ctx.desk).units === 'us' ? fahrenheitOf(tempC) : tempC);
    return runLeaf(
      plan,
      {
        number: animals,
        ...(mm !== '' && { 'length-mm': Number(mm) }),
        ...(hours !== '' && { hours: Number(hours) }),
        ...(airC !== '' && { temp: inUnits(Number(airC)) }),
        bag,
      },
      ctx,
    );
  },
} satisfies Partial<ActHandlers>;
