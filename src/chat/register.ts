import {
  type APIApplicationCommandBasicOption,
  type APIApplicationCommandSubcommandOption,
  ApplicationCommandOptionType,
  ApplicationCommandType,
  ChannelType,
  DiscordAPIError,
  HTTPError,
  type REST,
  type RESTPostAPIChatInputApplicationCommandsJSONBody,
  Routes,
} from 'discord.js';
import type { Command, Leaf, OptionSpec } from '../../commands/command.ts';

/** A slash command in the service's form; throws where a leaf's path does not belong under its command. */
export function commandJson(command: Command): RESTPostAPIChatInputApplicationCommandsJSONBody {
  return {
    type: ApplicationCommandType.ChatInput,
    name: command.name,
    description: command.description,
    options: optionsOf(command),
  };
}

function optionsOf(command: Command): APIApplicationCommandBasicOption[] | APIApplicationCommandSubcommandOption[] {
  const [only] = command.leaves;
  if (only !== undefined && command.leaves.length === 1 && only.path === command.name)
    return only.options.map(optionJson);
  return command.leaves.map((leaf) => ({
    type: ApplicationCommandOptionType.Subcommand,
    name: subcommandOf(command, leaf),
    description: leaf.description,
    options: leaf.options.map(optionJson),
  }));
}

function subcommandOf(command: Command, leaf: Leaf): string {
  const [name, sub, ...more] = leaf.path.split(' ');
  if (name !== command.name || sub === undefined || more.length > 0) {
    throw new Error(`"${leaf.path}" is no subcommand of /${command.name}`);
  }
  return sub;
}

const plainTypes = {
  number: ApplicationCommandOptionType.Number,
  integer: ApplicationCommandOptionType.Integer,
  boolean: ApplicationCommandOptionType.Boolean,
  member: ApplicationCommandOptionType.User,
  attachment: ApplicationCommandOptionType.Attachment,
} as const;

function optionJson(option: OptionSpec): APIApplicationCommandBasicOption {
  const { name, description, required = false } = option;
  if (option.type === 'channel') {
    return {
      type: ApplicationCommandOptionType.Channel,
      name,
      description,
      required,
      channel_types: [ChannelType.GuildText],
    };
  }
  if (option.type !== 'text') {
    return { type: plainTypes[option.type], name, description, required } as APIApplicationCommandBasicOption;
  }
  const text = { type: ApplicationCommandOptionType.String as const, name, description, required };
  if (option.complete !== undefined) return { ...text, autocomplete: true };
  if (option.choices === undefined) return text;
  return { ...text, choices: option.choices.map((choice) => ({ name: choice, value: choice })) };
}

/** Fields of a command that say something of ours; the service adds ids, versions and defaults. */
interface Told {
  readonly type?: unknown;
  readonly name?: unknown;
  readonly description?: unknown;
  readonly required?: unknown;
  readonly autocomplete?: unknown;
  readonly choices?: readonly { readonly name?: unknown; readonly value?: unknown }[];
  readonly channel_types?: readonly unknown[];
  readonly options?: readonly Told[];
}

const normalised = (told: Told): Told => ({
  type: told.type ?? ApplicationCommandType.ChatInput,
  name: told.name,
  description: told.description,
  required: told.required ?? false,
  autocomplete: told.autocomplete ?? false,
  choices: (told.choices ?? []).map(({ name, value }) => ({ name, value })),
  channel_types: told.channel_types ?? [],
  options: (told.options ?? []).map(normalised),
});

const fingerprint = (commands: readonly Told[]): string =>
  JSON.stringify(commands.map(normalised).sort((a, b) => (String(a.name) < String(b.name) ? -1 : 1)));

/** Whether two lists of commands mean the same, whatever ids and defaults the service put into one of them. */
export const areSameCommands = (ours: readonly unknown[], listed: readonly unknown[]): boolean =>
  fingerprint(ours as readonly Told[]) === fingerprint(listed as readonly Told[]);

/**
 * Makes the guild's commands these, in one bulk overwrite, and only where the service lists others: creating commands is rationed.
 * @returns whether they had to be written
 */
export async function registerCommands(
  rest: REST,
  applicationId: string,
  guildId: string,
  commands: readonly Command[],
): Promise<boolean> {
  const route = Routes.applicationGuildCommands(applicationId, guildId);
  const ours = commands.map(commandJson);
  const listed = await rest.get(route).catch(nothingListed);
  if (Array.isArray(listed) && areSameCommands(ours, listed)) return false;
  await rest.put(route, { body: ours });
  return true;
}

/** A service that has no list yet has nothing to compare with. */
function nothingListed(error: unknown): undefined {
  const status = error instanceof DiscordAPIError || error instanceof HTTPError ? error.status : undefined;
  if (status !== 404 && status !== 405) throw error;
  return undefined;
}
