import { byId, make } from './dom.js';
import { addListbox } from './listbox.js';
import { makeOptionField } from './optionFields.js';
import { service } from './service.js';

const SUBCOMMAND = 1;
const GROUP = 2;

/** Every command as it is typed, subcommands on their own lines, in the order in which the bot registered them. */
export function commandLines(commands) {
  const lines = (path, part) => {
    const inner = (part.options ?? []).filter((option) => option.type === SUBCOMMAND || option.type === GROUP);
    if (inner.length > 0) return inner.flatMap((option) => lines(`${path} ${option.name}`, option));
    return [{ path, description: part.description, options: part.options ?? [] }];
  };
  return commands.flatMap((command) => lines(command.name, command));
}

/**
 * The line at the foot of the page: a command with its options as labelled fields, or plain words to the channel.
 * @param {{ names: () => any, who: () => {as: string, channel: string}, commands: () => any[], perform: (act: () => Promise<any>) => Promise<boolean> }} page
 */
export function startComposer(page) {
  const input = /** @type {HTMLInputElement} */ (byId('command'));
  const box = byId('options');
  let picked;
  let fields = [];

  const clear = () => {
    picked = undefined;
    fields = [];
    box.replaceChildren();
    box.hidden = true;
    input.value = '';
    input.readOnly = false;
    byId('send').textContent = 'Send';
    // On a phone the focus would bring up the keyboard over the answer.
    if (window.matchMedia('(hover: hover)').matches) input.focus();
  };

  const readAll = async () => {
    const entered = await Promise.all(fields.map(async (field) => [field.name, await field.read()]));
    return Object.fromEntries(entered.filter(([, value]) => value !== undefined));
  };

  const pick = (line) => {
    picked = line;
    input.value = `/${line.path}`;
    input.readOnly = true;
    byId('send').textContent = 'Run';
    const context = { path: line.path, names: page.names(), who: page.who, typedSoFar: readAll };
    fields = line.options.map((option) => makeOptionField(option, context));
    const needed = fields.filter((_, index) => line.options[index].required);
    const others = fields.filter((_, index) => !line.options[index].required);
    box.replaceChildren(
      make(
        'div',
        { class: 'optionsHead' },
        make('p', { class: 'quiet' }, line.description),
        make('button', { type: 'button', onclick: clear }, 'Cancel'),
      ),
      ...needed.map((field) => field.element),
      ...(others.length === 0 ? [] : [make('div', { class: 'pair' }, ...others.map((field) => field.element))]),
    );
    box.setAttribute('aria-label', `Options of /${line.path}`);
    box.hidden = false;
    box.scrollTop = 0;
    const first = box.querySelector('.field input, .field select');
    if (first instanceof HTMLElement) first.focus();
    else byId('send').focus();
  };

  addListbox(input, byId('commandList'), {
    offer: (text) => (text.startsWith('/') && picked === undefined ? matching(page.commands(), text.slice(1)) : []),
    show: (line) => [`/${line.path}`, make('small', {}, line.description)],
    take: pick,
  });

  const send = async () => {
    const text = input.value.trim();
    if (picked === undefined && text.startsWith('/')) {
      const line = page.commands().find((entry) => entry.path === text.slice(1));
      if (line === undefined) throw new Error(`There is no command ${text}`);
      pick(line);
      if (line.options.length > 0) return;
    }
    if (picked !== undefined) {
      const body = { ...page.who(), command: picked.path, options: await readAll() };
      if (await page.perform(() => service.run(body))) clear();
    } else if (text !== '' && (await page.perform(() => service.say({ ...page.who(), text })))) clear();
  };
  byId('composer').addEventListener('submit', (event) => {
    event.preventDefault();
    send().catch((problem) => page.perform(() => Promise.reject(problem)));
  });
}

function matching(lines, text) {
  const words = text.toLowerCase().split(/\s+/).filter(Boolean);
  const starting = lines.filter((line) => line.path.startsWith(text.toLowerCase()));
  const containing = lines.filter(
    (line) => !starting.includes(line) && words.every((word) => line.path.includes(word)),
  );
  return [...starting, ...containing];
}
