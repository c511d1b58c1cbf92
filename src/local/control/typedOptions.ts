import { ApplicationCommandOptionType, ApplicationCommandType } from 'discord-api-types/v10';
import type { WireChoice, WireCommandOption } from '../wire.ts';
import type { StoredCommand } from '../world/records.ts';
import type { World } from '../world/world.ts';
import type { OptionValue } from './asks.ts';
import { Resolved } from './resolved.ts';
import { WrongAsk } from './wrongAsk.ts';

export interface TypedOption {
  name: string;
  type: number;
  value?: string | number | boolean;
  focused?: boolean;
  options?: TypedOption[];
}

export interface TypedCommand {
  command: StoredCommand;
  /** The full name as typed, for example "reading log". */
  path: string;
  options: TypedOption[];
  resolved: Resolved;
  /** The option being completed. */
  focused?: WireCommandOption;
}

export interface Typing {
  focused: string;
  typed: string;
}

/** Finds the registered command behind "reading log" and types its options as the service would send them. */
export function typeCommand(
  world: World,
  path: string,
  values: Record<string, OptionValue>,
  typing?: Typing,
): TypedCommand {
  const names = path.trim().replace(/^\//, '').split(/\s+/);
  const command = world.commands.find(
    (entry) => entry.name === names[0] && (entry.type ?? 1) === ApplicationCommandType.ChatInput,
  );
  if (command === undefined) throw new WrongAsk(`no command /${names[0]} is registered`);
  const holders: WireCommandOption[] = [];
  let offered = command.options ?? [];
  for (const name of names.slice(1)) {
    const holder = offered.find((option) => option.name === name && isHolder(option));
    if (holder === undefined) throw new WrongAsk(`/${path} is not registered`);
    holders.push(holder);
    offered = holder.options ?? [];
  }
  if (offered.some(isHolder))
    throw new WrongAsk(`/${path} needs one of: ${offered.map((option) => option.name).join(', ')}`);
  const resolved = new Resolved(world);
  const typed = typeValues(offered, values, resolved, path, typing);
  const focused = offered.find((option) => option.name === typing?.focused);
  return {
    command,
    path: names.join(' '),
    options: holders.reduceRight<TypedOption[]>(
      (inner, holder) => [{ name: holder.name, type: holder.type, options: inner }],
      typed,
    ),
    resolved,
    ...(focused === undefined ? {} : { focused }),
  };
}

function isHolder(option: WireCommandOption): boolean {
  return (
    option.type === ApplicationCommandOptionType.Subcommand ||
    option.type === ApplicationCommandOptionType.SubcommandGroup
  );
}

function typeValues(
  offered: WireCommandOption[],
  values: Record<string, OptionValue>,
  resolved: Resolved,
  path: string,
  typing: Typing | undefined,
): TypedOption[] {
  const unknown = Object.keys(values).find((name) => !offered.some((option) => option.name === name));
  if (unknown !== undefined) throw new WrongAsk(`/${path} has no option "${unknown}"`);
  const typed = Object.entries(values).flatMap(([name, value]) => {
    const option = offered.find((entry) => entry.name === name);
    return option === undefined || name === typing?.focused ? [] : [typeValue(option, value, resolved)];
  });
  if (typing === undefined) {
    const missing = offered.find((option) => option.required && values[option.name] === undefined);
    if (missing !== undefined) throw new WrongAsk(`/${path} needs the option "${missing.name}"`);
    return typed;
  }
  const option = offered.find((entry) => entry.name === typing.focused);
  if (!option?.autocomplete) throw new WrongAsk(`the option "${typing.focused}" of /${path} does not complete`);
  return [...typed, { name: option.name, type: option.type, value: typing.typed, focused: true }];
}

function typeValue(option: WireCommandOption, value: OptionValue, resolved: Resolved): TypedOption {
  const named = { name: option.name, type: option.type };
  if (option.type === ApplicationCommandOptionType.Attachment)
    return { ...named, value: resolved.file(option.name, value) };
  if (typeof value === 'object') throw new WrongAsk(`the option "${option.name}" takes no file`);
  switch (option.type) {
    case ApplicationCommandOptionType.String:
      return { ...named, value: typeText(option, String(value)) };
    case ApplicationCommandOptionType.Integer:
    case ApplicationCommandOptionType.Number:
      return { ...named, value: typeNumber(option, value) };
    case ApplicationCommandOptionType.Boolean:
      return { ...named, value: typeof value === 'boolean' ? value : String(value).toLowerCase() === 'true' };
    case ApplicationCommandOptionType.User:
      return { ...named, value: resolved.user(String(value)) };
    case ApplicationCommandOptionType.Channel:
      return { ...named, value: resolved.channel(String(value)) };
    case ApplicationCommandOptionType.Role:
      return { ...named, value: resolved.role(String(value)) };
    default:
      return { ...named, value: resolved.mentionable(String(value)) };
  }
}

function typeText(option: WireCommandOption, text: string): string {
  const choices = option.choices ?? [];
  if (choices.length > 0) return String(chosen(option, choices, text).value);
  const least = option.min_length ?? 0;
  const most = option.max_length ?? 6000;
  if (text === '' || text.length < least || text.length > most)
    throw new WrongAsk(`the option "${option.name}" takes ${Math.max(1, least)} to ${most} characters`);
  return text;
}

function typeNumber(option: WireCommandOption, value: string | number | boolean): number {
  const choices = option.choices ?? [];
  const number = Number(choices.length > 0 ? chosen(option, choices, String(value)).value : value);
  const isWhole = option.type === ApplicationCommandOptionType.Integer;
  if (!Number.isFinite(number) || value === '' || (isWhole && !Number.isInteger(number)))
    throw new WrongAsk(`the option "${option.name}" takes a ${isWhole ? 'whole ' : ''}number, not "${value}"`);
  if (number < (option.min_value ?? -Infinity) || number > (option.max_value ?? Infinity))
    throw new WrongAsk(
      `the option "${option.name}" takes ${option.min_value ?? 'any'} to ${option.max_value ?? 'any'}`,
    );
  return number;
}

function chosen(option: WireCommandOption, choices: WireChoice[], text: string): WireChoice {
  const choice = choices.find((entry) => String(entry.value) === text) ?? choices.find((entry) => entry.name === text);
  if (choice === undefined)
    throw new WrongAsk(`the option "${option.name}" takes one of: ${choices.map((entry) => entry.name).join(', ')}`);
  return choice;
}
