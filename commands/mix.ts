import { z } from 'zod';
import { prepareMix } from '../src/desk/index.ts';
import { mixCard, noMixCard } from '../src/reply/index.ts';
import { type Command, leaf } from './command.ts';
import { number, optionalNumber } from './options.ts';
import { voiceOf } from './voice.ts';

const recipe = leaf({
  path: 'mix',
  description: 'New water to a target: litres of tap and of pure water',
  options: [
    { name: 'litres', description: 'Litres to prepare', type: 'number', required: true },
    { name: 'gh', description: 'GH to come out, °dGH', type: 'number' },
    { name: 'kh', description: 'KH to come out, °dKH', type: 'number' },
    { name: 'tds', description: 'TDS to come out, mg/L', type: 'number' },
    { name: 'nitrate', description: 'Nitrate at most, mg/L as NO3', type: 'number' },
    { name: 'salt-gh', description: 'By its label: °dGH that 1 g of your mineral salt adds to 10 L', type: 'number' },
    { name: 'salt-kh', description: 'By its label: °dKH that 1 g of it adds to 10 L', type: 'number' },
  ],
  input: z.object({
    litres: number,
    gh: optionalNumber,
    kh: optionalNumber,
    tds: optionalNumber,
    nitrate: optionalNumber,
    'salt-gh': optionalNumber,
    'salt-kh': optionalNumber,
  }),
  run: ({ 'salt-gh': saltGh, 'salt-kh': saltKh, ...asked }, ctx) => {
    const prepared = prepareMix(ctx.desk, { ...asked, saltGh, saltKh });
    return prepared.ok
      ? { card: mixCard(voiceOf(ctx), prepared.value) }
      : { card: noMixCard(prepared.fault), private: true };
  },
});

export const mix: Command = { name: 'mix', description: recipe.description, leaves: [recipe] };
