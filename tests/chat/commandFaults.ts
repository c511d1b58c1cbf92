/** Limits of slash commands. Source: the service's developer documentation, "application commands". */
const nameForm = /^[-_'\p{L}\p{N}\p{sc=Deva}\p{sc=Thai}]{1,32}$/u;

interface Named {
  readonly name: string;
  readonly description?: string;
  readonly required?: boolean;
  readonly choices?: readonly { readonly name: string; readonly value: string | number }[];
  readonly options?: readonly Named[];
}

/** What the service would refuse about these commands, a sentence each. */
export function commandFaults(commands: readonly unknown[]): string[] {
  const named = commands as readonly Named[];
  return [
    ...(named.length > 100 ? [`${named.length} commands`] : []),
    ...twice('the commands', named),
    ...named.flatMap((command) => [...faultsOf(`/${command.name}`, command), ...sizeFault(command)]),
  ];
}

function faultsOf(where: string, part: Named): string[] {
  const { name, description = '', options = [], choices = [] } = part;
  const firstOptional = options.findIndex(({ required }) => required !== true);
  const behind = options.filter(
    ({ required }, index) => required === true && firstOptional >= 0 && index > firstOptional,
  );
  return [
    ...(nameForm.test(name) && name === name.toLowerCase() ? [] : [`${where}: not a name`]),
    ...(description.length >= 1 && description.length <= 100
      ? []
      : [`${where}: description of ${description.length} characters`]),
    ...(options.length > 25 ? [`${where}: ${options.length} options`] : []),
    ...(choices.length > 25 ? [`${where}: ${choices.length} choices`] : []),
    ...choices
      .filter((choice) => choice.name.length > 100 || choice.name === '')
      .map((choice) => `${where}: choice ${choice.name}`),
    ...twice(where, options),
    ...twice(where, choices),
    ...behind.map((option) => `${where} ${option.name}: required, but behind an optional one`),
    ...options.flatMap((option) => faultsOf(`${where} ${option.name}`, option)),
  ];
}

function twice(where: string, parts: readonly { readonly name: string }[]): string[] {
  const names = parts.map(({ name }) => name);
  return new Set(names).size === names.length ? [] : [`${where}: a name twice among ${names.join(', ')}`];
}

/** All names, descriptions and choice values of a command together: at most 8000 characters. */
function sizeFault(command: Named): string[] {
  const sizeOf = ({ name, description = '', choices = [], options = [] }: Named): number =>
    name.length +
    description.length +
    choices.reduce((sum, choice) => sum + choice.name.length + String(choice.value).length, 0) +
    options.reduce((sum, option) => sum + sizeOf(option), 0);
  const size = sizeOf(command);
  return size > 8000 ? [`/${command.name}: ${size} characters in all`] : [];
}
