import { z } from 'zod';
import {
  businessOf,
  findTub,
  logReading,
  logSheet,
  mendNitrate,
  racksOf,
  readingHistory,
  readingOf,
  type SheetRow,
  type TypedValues,
  tubById,
  tubsInUse,
} from '../src/desk/index.ts';
import type { WaterValueName } from '../src/domain/index.ts';
import {
  type Button,
  button,
  press,
  readingCard,
  readingForm,
  readingHistoryCard,
  sheetCard,
  sheetForm,
  sheetProblem,
} from '../src/reply/index.ts';
import { parseSheet, type SheetProblem } from '../src/words/index.ts';
import { type ActHandlers, type Answer, type Command, type Ctx, leaf } from './command.ts';
import { keepForm } from './keptForms.ts';
import { momentOf, optionalFlag, optionalNumber, optionalText, text, tubOption, whenOption } from './options.ts';
import { runLeaf } from './run.ts';
import { gone, refused, refusedAct, voiceOf, withRetry } from './voice.ts';

const valueOptions = [
  { name: 'temp', description: 'Water temperature, in your units', type: 'number' },
  { name: 'ph', description: 'pH', type: 'number' },
  { name: 'gh', description: 'General hardness, °dGH', type: 'number' },
  { name: 'kh', description: 'Carbonate hardness, °dKH', type: 'number' },
  { name: 'tds', description: 'TDS, mg/L (ppm)', type: 'number' },
  { name: 'ammonia', description: 'Total ammonia as the kit shows it, mg/L', type: 'number' },
  { name: 'nitrite', description: 'Nitrite as NO2, mg/L', type: 'number' },
  { name: 'nitrate', description: 'Nitrate as NO3, mg/L', type: 'number' },
] as const;

const optionOf: Record<WaterValueName, (typeof valueOptions)[number]['name']> = {
  tempC: 'temp',
  ph: 'ph',
  ghDgh: 'gh',
  khDkh: 'kh',
  tdsMgL: 'tds',
  ammoniaMgL: 'ammonia',
  nitriteMgL: 'nitrite',
  nitrateMgL: 'nitrate',
};

const log = leaf({
  path: 'reading log',
  description: 'Log water values of a tub and have them judged',
  options: [
    tubOption,
    ...valueOptions,
    whenOption,
    { name: 'note', description: 'Anything worth keeping', type: 'text' },
  ],
  input: z.object({
    tub: text,
    temp: optionalNumber,
    ph: optionalNumber,
    gh: optionalNumber,
    kh: optionalNumber,
    tds: optionalNumber,
    ammonia: optionalNumber,
    nitrite: optionalNumber,
    nitrate: optionalNumber,
    when: optionalText,
    note: optionalText,
    sure: optionalFlag,
  }),
  run: ({ tub, when, note, sure, ...typed }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const values = Object.fromEntries(
      (Object.keys(optionOf) as WaterValueName[]).map((name) => [name, typed[optionOf[name]]]),
    ) as TypedValues;
    const logged = logReading(ctx.desk, ctx.by, { tub, values, at: at.value, note, sure });
    if (logged.ok) return { card: readingCard(voiceOf(ctx), ctx.by.name, logged.value) };
    const answer = refusedAct(ctx, logged.fault, at.value);
    return logged.fault.kind === 'nothing-given' ? withForm(ctx, answer, tub) : answer;
  },
});

/** A reading without a value gets a button that opens the tub's form. */
function withForm(ctx: Ctx, answer: Answer, typed: string): Answer {
  const tub = findTub(ctx.desk, typed);
  return tub.ok
    ? withRetry(answer, () =>
        button(`Reading of ${tub.value.name}`, press('reading-form', { tub: tub.value.id }), 'main'),
      )
    : answer;
}

/** One sheet holds this many tubs: what a form's text field shows on a phone. */
const tubsPerSheet = 40;

function openSheet(ctx: Ctx, rack: string | undefined) {
  const wanted = rack?.trim().toLowerCase();
  const tubs = tubsInUse(ctx.desk).filter((tub) => wanted === undefined || tub.rack.toLowerCase() === wanted);
  if (tubs.length === 0) {
    return {
      private: true,
      card: {
        title: rack === undefined ? 'No tubs yet' : `No rack called "${rack.slice(0, 30)}"`,
        next: `Racks: ${racksOf(ctx.desk).join(', ') || 'none yet; add tubs with /tub add'}`,
      },
    };
  }
  return {
    form: sheetForm(
      tubs.slice(0, tubsPerSheet).map(({ name }) => name),
      rack ?? '',
      tubs.length,
    ),
  };
}

const sheet = leaf({
  path: 'reading sheet',
  description: 'A form with the tubs of a rack, one a line',
  options: [{ name: 'rack', description: 'Which rack; all if not said', type: 'text', complete: 'rack' }],
  input: z.object({ rack: optionalText }),
  run: ({ rack }, ctx) => openSheet(ctx, rack),
});

const what = valueOptions.map(({ name }) => name);

const history = leaf({
  path: 'reading history',
  description: 'Readings of a tub as a table',
  options: [
    tubOption,
    { name: 'what', description: 'One value only', type: 'text', choices: what },
    { name: 'days', description: 'How far back; 90 if not said', type: 'number' },
  ],
  input: z.object({ tub: text, what: z.enum(what).nullish(), days: optionalNumber }),
  run: ({ tub, what: option, days = 90 }, ctx) => {
    const found = readingHistory(ctx.desk, tub, days);
    if (!found.ok) return refused(ctx, found.fault);
    const only = (Object.keys(optionOf) as WaterValueName[]).find((name) => optionOf[name] === option);
    return { card: readingHistoryCard(voiceOf(ctx), found.value, days, only) };
  },
});

export const reading: Command = { name: 'reading', description: 'Water values', leaves: [log, sheet, history] };

/** A reading of before, with what puts it right where it does not fit. */
function shown(ctx: Ctx, entry: number): Answer {
  const found = readingOf(ctx.desk, entry);
  if (!found.ok) return refused(ctx, found.fault);
  const { logged, by, loggedAt } = found.value;
  return { card: readingCard(voiceOf(ctx), by, logged, loggedAt) };
}

/** In a form the note has its own field: words among the values are none. */
const strayWords = (note: string | undefined): SheetProblem | undefined =>
  note === undefined ? undefined : { kind: 'unknown-word', typed: note.split(' ')[0] ?? note, near: [] };

export const readingActs = {
  'reading-form': ({ tub: id }, ctx) => {
    const tub = tubById(ctx.desk, id);
    return tub === undefined ? gone : { form: readingForm(voiceOf(ctx), tub) };
  },
  'reading-send': async ({ tub: id }, ctx, { fields }) => {
    const tub = tubById(ctx.desk, id);
    if (tub === undefined) return gone;
    const retry = () => keepForm(ctx, press('reading-form', { tub: id }), fields);
    const keyed = [
      ['no3', fields['nitrate']],
      ['t', fields['temp']],
      ['ph', fields['ph']],
    ]
      .filter(([, typed]) => typed !== undefined && typed.trim() !== '')
      .map(([key, typed]) => `${key} ${typed}`);
    const [line] = parseSheet(
      `${tub.name} ${keyed.join(' ')} ${fields['others'] ?? ''}`,
      [tub.name],
      businessOf(ctx.desk).units,
    );
    const problem = line?.problem ?? strayWords(line?.note);
    if (problem !== undefined) {
      return withRetry(
        {
          private: true,
          card: {
            title: 'Not logged: not all of it understood',
            why: [sheetProblem(problem)],
            next: 'Open the form again; what you typed is kept',
          },
        },
        retry,
      );
    }
    return withRetry(
      await runLeaf(log, { tub: tub.name, ...optionsOf(line?.values ?? {}), note: fields['note'] }, ctx),
      retry,
    );
  },
  'reading-mend': ({ entry, nitrate }, ctx) => {
    const mended = mendNitrate(ctx.desk, ctx.by, entry, nitrate);
    return mended.ok ? { card: readingCard(voiceOf(ctx), ctx.by.name, mended.value) } : refused(ctx, mended.fault);
  },
  'reading-show': ({ entry }, ctx) => shown(ctx, entry),
  'reading-pick': (_, ctx, { values: [entry = ''] }) => shown(ctx, Number(entry)),
  'sheet-form': ({ rack }, ctx) => openSheet(ctx, rack === '' ? undefined : rack),
  'sheet-send': async ({ rack }, ctx, { fields }) => {
    const lines = parseSheet(
      fields['sheet'] ?? '',
      tubsInUse(ctx.desk).map(({ name }) => name),
      businessOf(ctx.desk).units,
    );
    const good = lines.flatMap(({ tub, values, note, problem, text: line }) =>
      tub === undefined || values === undefined || problem !== undefined ? [] : [{ tub, values, note, line }],
    );
    const results = logSheet(ctx.desk, ctx.by, good);
    const logged = results.flatMap(({ result }) => (result.ok ? [result.value] : []));
    const refusedRows = results.flatMap(({ row, result }, index) =>
      result.ok ? [] : [{ row, line: good[index]?.line ?? row.tub, why: refused(ctx, result.fault).card?.title ?? '' }],
    );
    const wrong = [
      ...lines.flatMap(({ problem, text: line }) =>
        problem === undefined ? [] : [{ line, why: sheetProblem(problem) }],
      ),
      ...refusedRows,
    ];
    const opener = press('sheet-form', { rack });
    const retry =
      wrong.length === 0 ? null : keepForm(ctx, opener, { sheet: wrong.map(({ line }) => line).join('\n') });
    const [only] = wrong.length === 1 ? refusedRows : [];
    const mends = only === undefined ? [] : await mendButtons(ctx, only.row);
    return { card: sheetCard(voiceOf(ctx), ctx.by.name, logged, wrong, retry, mends), private: logged.length === 0 };
  },
} satisfies Partial<ActHandlers>;

/** What a refused row probably meant, each on a button as `/reading log` would offer it. */
async function mendButtons(ctx: Ctx, { tub, values, note }: SheetRow): Promise<Button[]> {
  const asked = await runLeaf(
    log,
    { tub, ...optionsOf(values), note },
    { ...ctx, by: { ...ctx.by, key: `${ctx.by.key}#mend` } },
  );
  if (asked.private !== true) return [];
  return (asked.card?.controls ?? [])
    .flat()
    .flatMap((control) => (control.kind === 'button' && control.press.act === 'again' ? [control] : []))
    .slice(0, 2)
    .map((control) => ({ ...control, label: `${tub}: ${control.label.replace(/^Log /, '')}` }));
}

const optionsOf = (values: TypedValues): Record<string, number | undefined> =>
  Object.fromEntries(Object.entries(values).map(([name, value]) => [optionOf[name as WaterValueName], value]));
