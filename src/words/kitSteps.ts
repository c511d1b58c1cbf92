import { ok, type Result } from '../domain/index.ts';
import { type BadWords, badWords, tidied } from './badWords.ts';

/** The steps of a colour kit, mg/L, from "0 5 10 20 40 80": at least two, none below 0, each above the one before. */
export function parseKitSteps(text: string): Result<number[], BadWords> {
  const pieces = tidied(text)
    .replace(/ ?mg\/l$/, '')
    .split(/[\s,;/]+/)
    .filter((piece) => piece !== '');
  const steps = pieces.filter((piece) => /^\d+(?:\.\d+)?$/.test(piece)).map(Number);
  const rising = steps.every((step, index) => index === 0 || step > (steps[index - 1] ?? 0));
  return steps.length < 2 || steps.length !== pieces.length || !rising ? badWords('kit steps', text) : ok(steps);
}
