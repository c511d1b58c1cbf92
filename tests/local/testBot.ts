import { Client, GatewayIntentBits, type Interaction } from 'discord.js';
import { type LocalChat, type LocalChatOptions, startLocalChat } from '../../src/local/startLocalChat.ts';
import { type Chat, driveChat } from '../support/chat/driver.ts';

export interface BotAndChat {
  local: LocalChat;
  chat: Chat;
  client: Client<true>;
  /** What an interaction does, set by each test. */
  onInteraction(act: (interaction: Interaction<'cached'>) => Promise<unknown>): void;
  /** What the interaction's act threw, in order. */
  problems: unknown[];
  close(): Promise<void>;
}

/** Starts a stand-in and logs an unmodified client in to it. */
export async function startBotAndChat(options: Partial<LocalChatOptions> = {}): Promise<BotAndChat> {
  const local = await startLocalChat({ port: 0, ...options });
  const client = new Client({ intents: [GatewayIntentBits.Guilds], rest: { api: local.apiUrl } });
  const problems: unknown[] = [];
  let act: (interaction: Interaction<'cached'>) => Promise<unknown> = () => Promise.resolve();
  client.on('interactionCreate', (interaction) => {
    if (!interaction.inCachedGuild()) throw new Error('the guild is not known to the client');
    act(interaction).catch((problem: unknown) => problems.push(problem));
  });
  client.on('error', (problem) => problems.push(problem));
  const ready = new Promise<Client<true>>((resolve) => client.once('clientReady', resolve));
  await client.login(local.token);
  return {
    local,
    chat: driveChat(local.pageUrl),
    client: await ready,
    problems,
    onInteraction(next) {
      act = next;
    },
    async close() {
      await client.destroy();
      await local.close();
    },
  };
}
