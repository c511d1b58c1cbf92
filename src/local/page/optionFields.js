import { freshId, make } from './dom.js';
import { addListbox } from './listbox.js';
import { packFile, service } from './service.js';

const INTEGER = 4;
const BOOLEAN = 5;
const USER = 6;
const CHANNEL = 7;
const NUMBER = 10;
const ATTACHMENT = 11;

/**
 * A labelled field for an option of a command.
 * @param {any} option as registered
 * @param {{ path: string, names: import('./markdown.js').Names, who: () => {as: string, channel: string}, typedSoFar: () => Promise<Record<string, unknown>> }} context
 * @returns {{ element: HTMLElement, name: string, read: () => Promise<unknown> }} `read` gives undefined when nothing was entered
 */
export function makeOptionField(option, context) {
  const id = freshId('option');
  const control = makeControl(option, id, context);
  const label = make('label', { for: id }, make('b', {}, option.name), option.required ? ' (needed)' : '');
  const hint = make('small', { id: `${id}-hint` }, option.description);
  control.input.setAttribute('aria-describedby', hint.id);
  return {
    element: make('div', { class: 'field' }, label, control.element ?? control.input, hint),
    name: option.name,
    read: control.read,
  };
}

function makeControl(option, id, context) {
  const required = option.required ?? false;
  if (option.choices?.length)
    return select(
      id,
      required,
      option.choices.map((choice) => [choice.name, String(choice.value)]),
    );
  switch (option.type) {
    case BOOLEAN:
      return select(id, required, [
        ['yes', 'true'],
        ['no', 'false'],
      ]);
    case USER:
      return select(
        id,
        required,
        context.names.users.map((user) => [user.name, user.id]),
      );
    case CHANNEL:
      return select(
        id,
        required,
        context.names.channels.map((channel) => [`#${channel.name}`, channel.id]),
      );
    case ATTACHMENT: {
      const input = make('input', { id, required, type: 'file' });
      return { input, read: async () => (input.files[0] === undefined ? undefined : packFile(input.files[0])) };
    }
    default:
      return textInput(option, id, required, context);
  }
}

function select(id, required, entries) {
  const rows = entries.map(([words, value]) => make('option', { value }, words));
  const input = make('select', { id, required }, make('option', { value: '' }, '–'), ...rows);
  return { input, read: async () => (input.value === '' ? undefined : input.value) };
}

function textInput(option, id, required, context) {
  const isNumber = option.type === INTEGER || option.type === NUMBER;
  const input = make('input', {
    id,
    required,
    type: 'text',
    inputMode: option.type === INTEGER ? 'numeric' : isNumber ? 'decimal' : 'text',
    autocapitalize: 'off',
    spellcheck: false,
  });
  // A completed choice shows its name and sends its value, as long as the text is not touched again.
  let chosen;
  const read = async () => {
    const text = input.value.trim();
    if (text === '') return undefined;
    if (chosen !== undefined && chosen.name === input.value) return chosen.value;
    return isNumber ? text.replace(',', '.') : text;
  };
  if (!option.autocomplete) return { input, read };
  const list = make('div', {
    role: 'listbox',
    id: `${id}-list`,
    hidden: true,
    'aria-label': `Suggestions for ${option.name}`,
  });
  for (const [name, value] of [
    ['role', 'combobox'],
    ['aria-controls', list.id],
    ['aria-expanded', 'false'],
    ['aria-autocomplete', 'list'],
  ])
    input.setAttribute(name, value);
  addListbox(input, list, {
    offer: async (text) => {
      const options = await context.typedSoFar();
      delete options[option.name];
      const outcome = await service.complete({
        ...context.who(),
        command: context.path,
        options,
        focused: option.name,
        typed: text,
      });
      return outcome.choices ?? [];
    },
    show: (choice) => [choice.name],
    take: (choice) => {
      chosen = choice;
      input.value = choice.name;
    },
  });
  return { input, element: make('div', { class: 'picker' }, input, list), read };
}
