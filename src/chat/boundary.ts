import { randomBytes } from 'node:crypto';
import { type AutocompleteInteraction, type BaseInteraction, type Interaction, PermissionFlagsBits } from 'discord.js';
import type { Answer, Ctx, Pressed } from '../../commands/command.ts';
import { type Press, pressOf } from '../reply/index.ts';
import type { App, ChatLog } from './app.ts';
import {
  type Ahead,
  type Asking,
  acknowledge,
  type Control,
  deliver,
  isLostOnTheWay,
  isOnMessage,
  isUnanswerable,
  say,
} from './deliver.ts';
import { clipped, limits } from './limits.ts';
import { notices } from './notices.ts';
import { fieldsOf, leafOf, rawInputOf } from './options.ts';
import { permit } from './permission.ts';

/** Work found for an interaction: run it, after acknowledging it first where it is slow. */
interface Work {
  readonly name: string;
  readonly ahead: Ahead | undefined;
  readonly run: () => Promise<Answer>;
}

/** The one place where interactions come in: permission, options, handler, answer; and where every exception ends. */
export function makeBoundary(app: App, home: { guildId: string; channelId: string }, log: ChatLog) {
  const running = new Set<Promise<void>>();
  const seen = new Seen();

  const admit = (asking: BaseInteraction): ReturnType<typeof permit> => {
    const chosen = app.chosenChannel();
    const asked = {
      guildId: asking.guildId,
      channelId: asking.channelId,
      userId: asking.user.id,
      manages: asking.memberPermissions?.has(PermissionFlagsBits.ManageGuild) ?? false,
    };
    const channelIds = chosen === null ? [home.channelId] : [chosen, home.channelId];
    return permit(asked, { guildId: home.guildId, channelIds }, app.partners());
  };

  async function answer(asking: Asking): Promise<void> {
    const admitted = admit(asking);
    if (!admitted.ok) return say(asking, admitted.card, true);
    const before = app.loggedBy(asking.id);
    if (before !== undefined) return say(asking, notices.loggedAlready(before.summary), true);
    const work = workOf(app, asking, app.contextFor(byOf(app, asking), admitted.owner));
    if ('private' in work) return deliver(asking, work);
    if (work.ahead !== undefined) await acknowledge(asking, work.ahead);
    await deliverTwice(asking, await work.run());
    log.info({ what: work.name, user: asking.user.id, interaction: asking.id }, 'answered');
  }

  async function guarded(asking: Asking): Promise<void> {
    try {
      await answer(asking);
    } catch (error) {
      if (isUnanswerable(error))
        log.warn({ err: error, interaction: asking.id }, 'the interaction could not be answered any more');
      else await apologise(asking, error);
    } finally {
      app.worked();
    }
  }

  async function apologise(asking: Asking, error: unknown): Promise<void> {
    const reference = randomBytes(2).toString('hex').toUpperCase();
    log.error({ err: error, reference, interaction: asking.id, user: asking.user.id }, 'an interaction broke');
    try {
      await say(asking, notices.broken(reference, app.loggedBy(asking.id)?.summary), true);
    } catch (second) {
      log.warn({ err: second, reference, interaction: asking.id }, 'the apology did not arrive');
    }
  }

  async function complete(asking: AutocompleteInteraction): Promise<void> {
    try {
      const choices = admit(asking).ok ? choicesFor(app, asking, byOf(app, asking)) : [];
      await asking.respond(choices);
    } catch (error) {
      log.warn({ err: error, interaction: asking.id }, 'a completion failed');
    }
  }

  return {
    /** Takes one interaction; never rejects. */
    take(asking: Interaction): void {
      if (seen.before(asking.id)) {
        log.warn({ interaction: asking.id }, 'the interaction was delivered again');
        return;
      }
      const isAsking =
        asking.isChatInputCommand() || asking.isButton() || asking.isStringSelectMenu() || asking.isModalSubmit();
      if (!isAsking && !asking.isAutocomplete()) return;
      const work = (isAsking ? guarded(asking) : complete(asking)).finally(() => running.delete(work));
      running.add(work);
    },
    /** Resolves when nothing that was taken is still being worked on. */
    async settled(): Promise<void> {
      while (running.size > 0) await Promise.all(running);
    },
  };
}

function workOf(app: App, asking: Asking, ctx: Ctx): Work | (Answer & { readonly private: true }) {
  if (!asking.isChatInputCommand()) return pressWork(app, asking, ctx);
  const leaf = leafOf(app.commands, asking);
  if (leaf === undefined) return { card: notices.unknownCommand(), private: true };
  if (leaf.ownerOnly === true && !ctx.owner) return { card: notices.ownerOnly(leaf.path), private: true };
  const raw = rawInputOf(asking.options.data);
  const ahead = leaf.slow === undefined ? undefined : leaf.slow === 'channel' ? 'reply' : 'private reply';
  return { name: leaf.path, ahead, run: () => app.runLeaf(leaf, raw, ctx) };
}

function pressWork(app: App, asking: Control, ctx: Ctx): Work | (Answer & { readonly private: true }) {
  const press = readPress(asking.customId);
  if (press === undefined) return { card: notices.staleControl(), private: true };
  const pressed: Pressed = {
    values: asking.isStringSelectMenu() ? asking.values : [],
    fields: asking.isModalSubmit() ? fieldsOf(asking) : {},
  };
  const ahead = !app.isSlow(press) ? undefined : isOnMessage(asking) ? 'update' : 'reply';
  return { name: press.act, ahead, run: () => app.press(press, ctx, pressed) };
}

/** A custom id that another version wrote may not even decode. */
function readPress(customId: string): Press | undefined {
  try {
    return pressOf(customId);
  } catch (error) {
    if (error instanceof URIError) return undefined;
    throw error;
  }
}

/** The name that the others know: the partner's, else the one shown in the guild. */
function byOf(app: App, asking: BaseInteraction): Ctx['by'] {
  const { user, member } = asking;
  const partner = app.partners().find(({ userId }) => userId === user.id);
  const shown = member !== null && 'displayName' in member ? member.displayName : user.displayName;
  return { userId: user.id, name: partner?.name ?? shown, key: asking.id };
}

function choicesFor(app: App, asking: AutocompleteInteraction, by: Ctx['by']) {
  const focused = asking.options.getFocused(true);
  const kind = leafOf(app.commands, asking)?.options.find(({ name }) => name === focused.name)?.complete;
  if (kind === undefined) return [];
  const found = app.complete(kind, String(focused.value), app.contextFor(by, false), rawInputOf(asking.options.data));
  return found
    .filter(({ value }) => value.length > 0 && value.length <= limits.choiceText)
    .slice(0, limits.choices)
    .map(({ name, value }) => ({ name: clipped(name, limits.choiceText), value }));
}

/** What was lost on the way is sent once more: the act is done, and only its answer may be missing. */
async function deliverTwice(asking: Asking, given: Answer): Promise<void> {
  try {
    await deliver(asking, given);
  } catch (error) {
    if (!isLostOnTheWay(error)) throw error;
    await deliver(asking, given);
  }
}

/** The last interactions taken, so that one delivered twice is worked on once. */
class Seen {
  readonly #ids = new Set<string>();

  before(id: string): boolean {
    if (this.#ids.has(id)) return true;
    this.#ids.add(id);
    if (this.#ids.size > 1000) for (const oldest of [...this.#ids].slice(0, 500)) this.#ids.delete(oldest);
    return false;
  }
}
