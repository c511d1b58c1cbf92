import { ApplicationCommandOptionType, ApplicationCommandType } from 'discord-api-types/v10';
import type { FieldPath, FormErrors } from '../http/refusal.ts';
import type { WireCommand, WireCommandOption } from '../wire.ts';

/** Characters of names, descriptions and values of one command, its options and choices together. */
export const COMMAND_CHARACTERS = 8000;
/** Slash commands per server. */
export const SLASH_COMMANDS = 100;
/** Commands newly made per server and day. */
export const DAILY_CREATES = 200;

const NAME_FORM = /^[-_'\p{L}\p{N}\p{sc=Deva}\p{sc=Thai}]{1,32}$/u;
const HOLDERS: readonly number[] = [
  ApplicationCommandOptionType.Subcommand,
  ApplicationCommandOptionType.SubcommandGroup,
];

/** The documented rules for commands that the published schemas lack. */
export function checkCommand(command: WireCommand, path: FieldPath, errors: FormErrors): void {
  const type = command.type ?? ApplicationCommandType.ChatInput;
  if (type === ApplicationCommandType.ChatInput) {
    checkName(command.name, path, errors);
    if ((command.description ?? '') === '')
      errors.add([...path, 'description'], 'BASE_TYPE_REQUIRED', 'This field is required');
    checkOptions(command.options ?? [], [...path, 'options'], errors);
  } else {
    if ((command.description ?? '') !== '')
      errors.add(
        [...path, 'description'],
        'APPLICATION_COMMAND_INVALID_DESCRIPTION',
        'Only slash commands have a description.',
      );
    if ((command.options ?? []).length > 0)
      errors.add([...path, 'options'], 'APPLICATION_COMMAND_INVALID_OPTIONS', 'Only slash commands have options.');
  }
  const characters = characterCount(command);
  if (characters > COMMAND_CHARACTERS)
    errors.add(path, 'APPLICATION_COMMAND_TOO_LARGE', `Command exceeds maximum size (${COMMAND_CHARACTERS})`);
}

/** What holds over a whole list: one command of a name and kind, and no more than the service keeps. */
export function checkCommandList(commands: readonly WireCommand[], errors: FormErrors): void {
  const seen = new Set<string>();
  commands.forEach((command, index) => {
    const key = `${command.type ?? ApplicationCommandType.ChatInput} ${command.name}`;
    if (seen.has(key))
      errors.add([index, 'name'], 'APPLICATION_COMMANDS_DUPLICATE_NAME', 'Application command names must be unique');
    seen.add(key);
  });
}

function checkName(name: string, path: FieldPath, errors: FormErrors): void {
  if (!NAME_FORM.test(name) || name !== name.toLowerCase())
    errors.add([...path, 'name'], 'APPLICATION_COMMAND_INVALID_NAME', 'Command name is invalid');
}

function checkOptions(options: readonly WireCommandOption[], path: FieldPath, errors: FormErrors): void {
  const names = new Set<string>();
  let optionalSeen = false;
  const holders = options.filter((option) => HOLDERS.includes(option.type)).length;
  if (holders > 0 && holders < options.length)
    errors.add(
      path,
      'APPLICATION_COMMAND_OPTIONS_TYPE_INVALID',
      'Sub-commands and other options cannot stand side by side',
    );
  options.forEach((option, index) => {
    const at = [...path, index];
    checkName(option.name, at, errors);
    if (names.has(option.name))
      errors.add([...at, 'name'], 'APPLICATION_COMMAND_OPTIONS_NAME_ALREADY_EXISTS', 'Option name already exists');
    names.add(option.name);
    if (option.required && optionalSeen)
      errors.add(
        at,
        'APPLICATION_COMMAND_OPTIONS_REQUIRED_INVALID',
        'Required options must be placed before non-required options',
      );
    if (!option.required && !HOLDERS.includes(option.type)) optionalSeen = true;
    checkOption(option, at, errors);
  });
}

function checkOption(option: WireCommandOption, path: FieldPath, errors: FormErrors): void {
  const choices = option.choices ?? [];
  if (option.autocomplete && choices.length > 0)
    errors.add(
      [...path, 'autocomplete'],
      'APPLICATION_COMMAND_OPTIONS_AUTOCOMPLETE_WITH_CHOICES',
      'An option that completes cannot have fixed choices',
    );
  const names = new Set<string>();
  choices.forEach((choice, index) => {
    if (names.has(choice.name))
      errors.add(
        [...path, 'choices', index, 'name'],
        'APPLICATION_COMMAND_OPTIONS_CHOICE_NAME_ALREADY_EXISTS',
        'Choice name already exists',
      );
    names.add(choice.name);
    if (typeof choice.value === 'string' && choice.value.length > 100)
      errors.add([...path, 'choices', index, 'value'], 'BASE_TYPE_MAX_LENGTH', 'Must be 100 or fewer in length.');
  });
  checkRange(option.min_value, option.max_value, [...path, 'min_value'], errors);
  checkRange(option.min_length, option.max_length, [...path, 'min_length'], errors);
  if (HOLDERS.includes(option.type)) checkOptions(option.options ?? [], [...path, 'options'], errors);
}

function checkRange(
  least: number | null | undefined,
  most: number | null | undefined,
  path: FieldPath,
  errors: FormErrors,
): void {
  if (typeof least === 'number' && typeof most === 'number' && least > most)
    errors.add(path, 'NUMBER_TYPE_MAX', `int value should be less than or equal to ${most}.`);
}

function characterCount(part: WireCommand | WireCommandOption): number {
  const own = part.name.length + (part.description ?? '').length;
  const choices = 'choices' in part ? (part.choices ?? []) : [];
  const offered = choices.reduce((sum, choice) => sum + choice.name.length + String(choice.value).length, 0);
  return (part.options ?? []).reduce((sum, option) => sum + characterCount(option), own + offered);
}
