import type { ChangePlan, MovedValue } from '../domain/index.ts';
import { fahrenheitOf } from '../domain/index.ts';
import { counted, figure, litresWords, matchWords, type Voice } from './voice.ts';

const called: Readonly<Record<MovedValue['of'], string>> = { temperature: 'Temperature', tds: 'TDS', gh: 'GH' };

/** "TDS moves 240 → 225". */
function moveWords(voice: Voice, { of, before, after }: MovedValue): string {
  const inF = of === 'temperature' && voice.units === 'us';
  const shown = (value: number): string => figure(inF ? fahrenheitOf(value) : value, of === 'tds' ? 0 : 1);
  return `${called[of]} moves ${shown(before)} → ${shown(after)}`;
}

const isTooFar = ({ by, limit }: MovedValue): boolean => Math.abs(by) > limit + 1e-9;

/** A move under this part of its limit is not worth a line. */
const worthSaying = 0.2;

/** New water colder or warmer than this is not to be had, or not to be put in, °C (common practice, no source). */
const newWaterC = { from: 8, to: 30 } as const;

/** "New water of 14 to 30 °C moves the tub by 2 °C at most"; nothing where the tub's temperature is not known. */
export function newWaterLine(voice: Voice, { jump }: ChangePlan): string[] {
  if (jump.newWaterC === null) return [];
  const from = Math.max(newWaterC.from, jump.newWaterC.from);
  const to = Math.min(newWaterC.to, jump.newWaterC.to);
  if (from >= to) return [];
  const shown = (tempC: number): number => (voice.units === 'us' ? fahrenheitOf(tempC) : tempC);
  const unit = voice.units === 'us' ? '°F' : '°C';
  const [least, most] = [Math.ceil(shown(from) - 1e-9), Math.floor(shown(to) + 1e-9)];
  return [`New water of ${least} to ${most} ${unit} moves the tub by ${matchWords(voice)} at most`];
}

/** How far the planned change moves minerals: what it was split for, what is too far, or that it is fine. */
export function jumpLines(voice: Voice, { jump, wholeLitres, reason }: ChangePlan): string[] {
  const [worst] = jump.moves;
  if (worst === undefined) return [];
  if (wholeLitres !== null) {
    return [`${moveWords(voice, worst)}; ${litresWords(voice, wholeLitres)} at once would be too far`];
  }
  if (isTooFar(worst)) {
    return reason === 'urgent'
      ? [`${moveWords(voice, worst)}: far; bring the new water nearer to the tub's`]
      : [`${moveWords(voice, worst)}: far; better ${counted(jump.parts, 'part')}`];
  }
  const said = jump.moves.filter(({ by, limit }) => Math.abs(by) >= worthSaying * limit);
  return said.length === 0 ? [] : [`${said.map((move) => moveWords(voice, move)).join(' · ')}: fine`];
}
