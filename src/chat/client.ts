import { Client, Events, GatewayIntentBits, Status } from 'discord.js';
import type { App, ChatLog } from './app.ts';
import { makeBoundary } from './boundary.ts';
import { type Ending, endingOfClose, endingOfError, endingOfSilence } from './ending.ts';
import { makePublisher, type Publisher } from './publish.ts';
import { registerCommands } from './register.ts';
import { type Ticker, watch } from './watchdog.ts';

/** How long running handlers may take to finish when the bot stops. */
const FINISH_WITHIN_MS = 5_000;

/** What the bot must be allowed in its channel. */
const needed = ['ViewChannel', 'SendMessages', 'AttachFiles', 'ReadMessageHistory'] as const;

export interface ChatAccount {
  readonly apiUrl: string;
  readonly token: string;
  readonly guildId: string;
  readonly channelId: string;
}

export interface Chat extends Publisher {
  /** Finishes what is running (five seconds at most) and signs out. */
  stop(): Promise<void>;
}

/**
 * Signs in, waits until the guild is there, and brings the guild's commands up to date.
 * @param onEnding called once when the connection ends for good later on
 * @returns the running chat, or why there is none
 */
export async function startChat(
  app: App,
  account: ChatAccount,
  log: ChatLog,
  onEnding: (ending: Ending) => void,
  ticker?: Ticker,
): Promise<{ readonly ok: true; readonly value: Chat } | { readonly ok: false; readonly ending: Ending }> {
  const client = new Client({
    intents: [GatewayIntentBits.Guilds],
    rest: { api: account.apiUrl },
    allowedMentions: { parse: [] },
  });
  const boundary = makeBoundary(app, account, log);
  const closed = listen(client, log);
  client.on(Events.InteractionCreate, (interaction) => boundary.take(interaction));

  let endWatch = (): void => {};
  const silent = new Promise<Ending>((resolve) => {
    endWatch = watch(
      () => isConnected(client),
      () => resolve(endingOfSilence),
      ticker,
    );
  });
  const over = Promise.race([closed, silent]);
  const ready = new Promise<undefined>((resolve) => client.once(Events.ClientReady, () => resolve(undefined)));

  const ending = await Promise.race([over, client.login(account.token).then(() => ready)])
    .then((early) => early ?? settleIn(client, app, account, log))
    .catch(endingOfError);
  if (ending !== undefined) {
    endWatch();
    await client.destroy();
    return { ok: false, ending };
  }
  void over.then(onEnding);
  return {
    ok: true,
    value: {
      ...makePublisher(client, () => {
        const chosen = app.chosenChannel();
        return chosen === null ? [account.channelId] : [chosen, account.channelId];
      }),
      async stop() {
        endWatch();
        await finished(boundary.settled(), log);
        client.removeAllListeners(Events.ShardReconnecting);
        await client.destroy();
      },
    },
  };
}

/** Logs what happens to the connection; resolves when the service closes it for good. */
function listen(client: Client, log: ChatLog): Promise<Ending> {
  client.on(Events.Error, (error) => log.error({ err: error }, 'the chat client reports an error'));
  client.on(Events.Warn, (text) => log.warn({}, text));
  client.on(Events.ShardError, (error) => log.warn({ err: error }, 'the connection broke'));
  client.on(Events.ShardReconnecting, () => log.warn({}, 'connecting again'));
  client.on(Events.ShardResume, (_, replayed) => log.info({ replayed }, 'connected again'));
  return new Promise((resolve) => {
    client.on(Events.ShardDisconnect, ({ code }) => resolve(endingOfClose(code)));
    client.on(Events.Invalidated, () => resolve(endingOfClose(0)));
  });
}

/** First requests after the sign-in: is the channel there, and are the commands right? */
async function settleIn(client: Client, app: App, account: ChatAccount, log: ChatLog): Promise<Ending | undefined> {
  const applicationId = client.application?.id;
  if (applicationId === undefined) throw new Error('signed in without an application');
  const channel = await client.channels.fetch(account.channelId);
  if (channel === null || !channel.isSendable() || channel.isDMBased() || channel.guildId !== account.guildId) {
    return {
      sentence: 'DISCORD_CHANNEL_ID is not a text channel of the server in DISCORD_GUILD_ID that the bot can write to.',
      mayRetry: false,
    };
  }
  const own = channel.guild.members.me;
  const missing = own === null ? [] : (channel.permissionsFor(own)?.missing(needed) ?? []);
  if (missing.length > 0) log.warn({ missing }, 'the bot lacks permissions in its channel');
  const written = await registerCommands(client.rest, applicationId, account.guildId, app.commands);
  log.info({ commands: app.commands.length, written }, written ? 'commands registered' : 'commands are as registered');
  return undefined;
}

const isConnected = (client: Client): boolean =>
  client.isReady() && client.ws.shards.every(({ status }) => status === Status.Ready);

async function finished(work: Promise<void>, log: ChatLog): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<'late'>((resolve) => {
    timer = setTimeout(() => resolve('late'), FINISH_WITHIN_MS);
  });
  if ((await Promise.race([work, late])) === 'late') log.warn({}, 'stopping although a command is still running');
  clearTimeout(timer);
}
