import type { Answer, Leaf, Pressed } from '../../commands/command.ts';
import { complete } from '../../commands/complete.ts';
import { demoCommands, handle } from '../../commands/index.ts';
import { runLeaf } from '../../commands/run.ts';
import { notices } from '../../src/chat/notices.ts';
import { permit } from '../../src/chat/permission.ts';
import { loggedBy, partnersOf, todayOf } from '../../src/desk/index.ts';
import { postFor } from '../../src/jobs/posts.ts';
import { type Card, customIdOf, type Form, type Press, pressOf, type Select } from '../../src/reply/index.ts';
import { faultsOf, isRefusal } from './rules.ts';
import { watchDatabase } from './state.ts';
import { type Step, stalePressOf } from './steps.ts';
import { people, type Someone, type World } from './world.ts';

/** What a step did wrong: where, and how. */
export interface Finding {
  readonly where: string;
  readonly what: string;
}

/** What a step was answered with, by the name of its command or act. */
export interface Played {
  readonly name: string;
  readonly refused: boolean;
}

type Shown = { readonly press: Press; readonly select?: Select; readonly form?: Form };

/** Lets people do the steps one after the other, and looks at each answer and at the database. */
export async function play(
  world: World,
  steps: readonly Step[],
  onPlayed: (played: Played) => void = () => {},
): Promise<Finding[]> {
  const watch = watchDatabase(world.file);
  const shown: Shown[] = [];
  const findings: Finding[] = [];
  let before = { commits: watch.commits(), tables: watch.tables() };
  try {
    for (const step of steps) {
      const { name, answer, wrote, toForm, thrown } = await attempt(world, step, shown);
      const found = (what: string) => findings.push({ where: name, what });
      if (thrown !== undefined) found(`threw ${thrown}`);
      if (answer === undefined) continue;
      onPlayed({ name, refused: isRefusal(answer) });
      for (const fault of faultsOf(answer, toForm)) found(fault);
      shown.push(...controlsOf(answer));
      const commits = watch.commits();
      if (commits === before.commits) continue;
      const after = { commits, tables: watch.tables() };
      if (isRefusal(answer) || !wrote) {
        const changed = [...after.tables].filter(([table, hash]) => before.tables.get(table) !== hash);
        found(`changed ${changed.map(([table]) => table)} while it said "${answer.card?.title}"`);
      }
      before = after;
    }
    for (const broken of watch.broken()) findings.push({ where: 'database', what: JSON.stringify(broken) });
  } finally {
    watch.close();
  }
  return findings;
}

interface Attempt {
  readonly name: string;
  readonly answer?: Answer | undefined;
  readonly wrote: boolean;
  readonly toForm: boolean;
  readonly thrown?: string;
}

async function attempt(world: World, step: Step, shown: readonly Shown[]): Promise<Attempt> {
  const name = nameOf(step, shown);
  try {
    return { name, ...(await act(world, step, shown)) };
  } catch (error) {
    const thrown =
      error instanceof Error ? (error.stack ?? error.message).split('\n').slice(0, 4).join(' ') : String(error);
    return { name, wrote: false, toForm: false, thrown };
  }
}

function nameOf(step: Step, shown: readonly Shown[]): string {
  switch (step.do) {
    case 'command':
      return `/${step.path}`;
    case 'press':
      return shown[step.pick % shown.length]?.press.act ?? 'press';
    case 'stale press':
      return step.act;
    case 'post':
      return `post ${step.job}`;
    case 'complete':
      return `complete ${step.kind}`;
    case 'wait':
      return 'wait';
  }
}

async function act(world: World, step: Step, shown: readonly Shown[]): Promise<Omit<Attempt, 'name'>> {
  switch (step.do) {
    case 'command':
      return byWho(world, people[step.who], false, (ctx) => {
        const leaf = leafAt(step.path);
        if (leaf.ownerOnly === true && !ctx.owner) return { card: notices.ownerOnly(leaf.path), private: true };
        return runLeaf(leaf, step.options, ctx);
      });
    case 'press': {
      const target = shown[step.pick % shown.length];
      return target === undefined ? nothing : pressed(world, people[step.who], target, pressedOf(target, step));
    }
    case 'stale press': {
      const fields = Object.fromEntries(
        everyField.map((id, index) => [id, step.texts[index % step.texts.length] ?? '']),
      );
      return pressed(world, people[step.who], { press: stalePressOf(step) }, { values: step.values, fields });
    }
    case 'complete':
      return completed(world, step.kind, step.typed);
    case 'post': {
      const slot = { job: step.job, day: todayOf(world.desk), at: world.desk.now() };
      const post = postFor(world.desk, slot, step.lateMinutes);
      return post === null ? nothing : { answer: { card: post.card }, wrote: false, toForm: false };
    }
    case 'wait':
      world.wait(step.minutes);
      return nothing;
  }
}

const nothing = { wrote: false, toForm: false };

/** Names of fields that forms have or had; the fields of a form that was shown come with it. */
const everyField = [
  ...['nitrate', 'temp', 'ph', 'others', 'note', 'saleable', 'juveniles', 'berried', 'method', 'sheet', 'items'],
  ...['buyer', 'dispatch-on', 'price', 'area', 'amount', 'reason', 'low', 'high', 'dead', 'delivered'],
  ...['first', 'second', 'third', 'fourth'],
];

const leafAt = (path: string): Leaf => {
  const leaf = demoCommands.flatMap(({ leaves }) => leaves).find((known) => known.path === path);
  if (leaf === undefined) throw new Error(`no command /${path}`);
  return leaf;
};

type Doing = (ctx: ReturnType<World['contextFor']>) => Answer | Promise<Answer>;

/** Does it as somebody, as far as the bot lets them. */
async function byWho(world: World, who: Someone, toForm: boolean, doing: Doing): Promise<Omit<Attempt, 'name'>> {
  const place = { guildId: 'guild', channelIds: ['channel'] };
  const asked = { guildId: 'guild', channelId: 'channel', userId: who.userId, manages: who.manages };
  const admitted = permit(asked, place, partnersOf(world.desk));
  if (!admitted.ok) return { answer: { card: admitted.card, private: true }, wrote: false, toForm };
  const ctx = world.contextFor(who, admitted.owner);
  const voidedBefore = voidedIn(world);
  const answer = await doing(ctx);
  const wrote = loggedBy(world.desk, ctx.by.key) !== undefined || voidedIn(world) !== voidedBefore;
  return { answer, wrote, toForm };
}

/** The newest entry that holds: it changes when one is undone, which writes no entry of its own. */
const voidedIn = ({ desk }: World): string => JSON.stringify(desk.store.entries.latest(1000).map(({ id }) => id));

function pressed(world: World, who: Someone, target: Shown, came: Pressed): Promise<Omit<Attempt, 'name'>> {
  // As on the wire: what travels is the custom id.
  const read = pressOf(customIdOf(target.press));
  if (read === undefined) throw new Error(`the custom id of ${target.press.act} is not read back`);
  return byWho(world, who, target.form !== undefined, (ctx) => handle(read, ctx, came));
}

function pressedOf(target: Shown, step: Extract<Step, { do: 'press' }>): Pressed {
  const options = target.select?.options ?? [];
  const values = step.choices
    .slice(0, target.select?.max ?? 1)
    .flatMap((nth) => options[nth % options.length]?.value ?? []);
  const fields = (target.form?.fields ?? []).map(({ id, value }, index) => [id, step.texts[index] ?? value ?? '']);
  return { values: [...new Set(values)], fields: Object.fromEntries(fields) };
}

function completed(
  world: World,
  kind: Extract<Step, { do: 'complete' }>['kind'],
  typed: string,
): Omit<Attempt, 'name'> {
  const choices = complete(kind, typed, world.contextFor(people.wren, false), {});
  const isWrong =
    choices.length > 25 || choices.some(({ name, value }) => name === '' || name.length > 100 || value.length > 100);
  if (isWrong) throw new Error(`the service refuses these choices: ${JSON.stringify(choices)}`);
  return nothing;
}

/** Everything that a person could press or send after an answer. */
function controlsOf({ card, settle, form }: Answer): Shown[] {
  const cards = [card, settle].filter((one): one is Card => one !== undefined);
  const controls = cards.flatMap(({ controls = [] }) => controls.flatMap((row) => [...row]));
  return [
    ...controls.map((control) =>
      control.kind === 'select' ? { press: control.press, select: control } : { press: control.press },
    ),
    ...(form === undefined ? [] : [{ press: form.press, form }]),
  ];
}
