import {
  ApplicationCommandOptionType,
  type AutocompleteInteraction,
  type ChatInputCommandInteraction,
  type CommandInteractionOption,
  type ModalSubmitInteraction,
} from 'discord.js';
import type { Attachment, Command, Leaf, Member, RawInput } from '../../commands/command.ts';

/** The leaf that was typed, or undefined where the service's list is older than ours. */
export function leafOf(
  commands: readonly Command[],
  interaction: ChatInputCommandInteraction | AutocompleteInteraction,
): Leaf | undefined {
  const sub = interaction.options.getSubcommand(false);
  const path = sub === null ? interaction.commandName : `${interaction.commandName} ${sub}`;
  return commands.flatMap(({ leaves }) => leaves).find((leaf) => leaf.path === path);
}

/** Option values by name, free of the chat library's objects. */
export function rawInputOf(options: readonly CommandInteractionOption[]): RawInput {
  const [first] = options;
  if (first?.type === ApplicationCommandOptionType.Subcommand) return rawInputOf(first.options ?? []);
  return Object.fromEntries(options.map((option) => [option.name, plainValue(option)]));
}

function plainValue(option: CommandInteractionOption): unknown {
  if (option.type === ApplicationCommandOptionType.User) return memberOf(option);
  if (option.type === ApplicationCommandOptionType.Attachment) return attachmentOf(option);
  return option.value;
}

function memberOf({ user, member }: CommandInteractionOption): Member | undefined {
  if (!user) return undefined;
  const name = member && 'displayName' in member ? member.displayName : user.displayName;
  return { userId: user.id, name, bot: user.bot };
}

function attachmentOf({ attachment }: CommandInteractionOption): Attachment | undefined {
  if (!attachment) return undefined;
  const { id, name, url, size, contentType } = attachment;
  return { id, name, url, sizeBytes: size, contentType };
}

/** The texts of a form that was sent, by field. */
export function fieldsOf(interaction: ModalSubmitInteraction): Record<string, string> {
  const fields: Record<string, string> = {};
  for (const [id, field] of interaction.fields.fields) {
    if ('value' in field && typeof field.value === 'string') fields[id] = field.value;
  }
  return fields;
}
