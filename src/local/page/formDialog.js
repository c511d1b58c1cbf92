import { optionsOf } from './components.js';
import { byId, freshId, make } from './dom.js';
import { showMarkdown } from './markdown.js';
import { packFile } from './service.js';

const TEXT_DISPLAY = 10;
const TEXT_INPUT = 4;
const FILE_UPLOAD = 19;
const CHECKBOX = 23;
const PARAGRAPH = 2;

/**
 * Shows a form and gives its fields to `submit`, which says whether the form is done with.
 * @param {any} modal
 * @param {import('./markdown.js').Names} names
 * @param {(fields: Record<string, unknown>) => Promise<boolean>} submit
 */
export function showForm(modal, names, submit) {
  const dialog = /** @type {HTMLDialogElement} */ (byId('form'));
  const fields = [];
  const parts = modal.components.map((top) => {
    if (top.type === TEXT_DISPLAY) return showMarkdown(top.content, names);
    const inputs = top.component === undefined ? (top.components ?? []) : [top.component];
    return make(
      'div',
      {},
      ...inputs.map((input) => {
        const field = makeField(input, top.label ?? input.label ?? '', top.description, names);
        fields.push(field);
        return field.element;
      }),
    );
  });
  const problem = make('p', { class: 'bad', role: 'alert' });
  const send = async () => {
    const entered = await Promise.all(fields.map(async (field) => [field.name, await field.read()]));
    if (await submit(Object.fromEntries(entered.filter(([, value]) => value !== undefined)))) dialog.close();
    else problem.textContent = byId('status').textContent;
  };
  const onsubmit = (event) => {
    event.preventDefault();
    send().catch((error) => {
      problem.textContent = error.message;
    });
  };
  dialog.replaceChildren(
    make(
      'form',
      { onsubmit },
      make('h2', { id: 'formTitle' }, modal.title),
      ...parts,
      problem,
      make(
        'div',
        { class: 'row' },
        make('button', { type: 'submit', class: 'main' }, 'Send'),
        make('button', { type: 'button', onclick: () => dialog.close() }, 'Cancel'),
      ),
    ),
  );
  dialog.showModal();
}

function makeField(input, words, description, names) {
  const id = freshId('field');
  const required = input.required ?? true;
  const control = makeControl(input, id, required, names);
  const label = make(
    control.isGroup ? 'legend' : 'label',
    control.isGroup ? {} : { for: id },
    words,
    required ? ' (needed)' : '',
  );
  const hint = description ? make('small', { id: `${id}-hint` }, description) : null;
  if (hint) control.element.setAttribute('aria-describedby', hint.id);
  return {
    name: input.custom_id,
    read: control.read,
    element: make(
      control.isGroup ? 'fieldset' : 'div',
      { class: control.isGroup ? 'ticks' : 'field' },
      label,
      hint,
      control.element,
    ),
  };
}

function makeControl(input, id, required, names) {
  if (input.type === TEXT_INPUT) {
    const shared = {
      id,
      required,
      value: input.value ?? '',
      placeholder: input.placeholder ?? '',
      maxLength: input.max_length ?? 4000,
      minLength: input.min_length ?? 0,
    };
    const isLong = input.style === PARAGRAPH;
    const rows = Math.min(12, Math.max(4, (input.value ?? '').split('\n').length + 1));
    const element = isLong ? make('textarea', { ...shared, rows }) : make('input', { ...shared, type: 'text' });
    return { element, read: async () => element.value };
  }
  if (input.type === FILE_UPLOAD) {
    const element = make('input', { id, required, type: 'file', multiple: (input.max_values ?? 1) > 1 });
    return { element, read: () => Promise.all([...element.files].map(packFile)) };
  }
  if (input.type === CHECKBOX) {
    const element = make('input', { id, type: 'checkbox', defaultChecked: input.default ?? false });
    return { element, read: async () => element.checked };
  }
  return makeChoice(input, id, required, names);
}

function makeChoice(input, id, required, names) {
  const options = optionsOf(input, names);
  if ((input.max_values ?? 1) > 1) {
    const ticks = options.map((option) =>
      make('input', { type: 'checkbox', value: option.value, defaultChecked: option.default ?? false }),
    );
    const element = make('div', {}, ...ticks.map((tick, index) => make('label', {}, tick, options[index].label)));
    return { element, isGroup: true, read: async () => ticks.filter((tick) => tick.checked).map((tick) => tick.value) };
  }
  const rows = options.map((option) =>
    make('option', { value: option.value, defaultSelected: option.default ?? false }, option.label),
  );
  const element = make('select', { id, required }, make('option', { value: '' }, input.placeholder ?? '–'), ...rows);
  return { element, read: async () => (element.value === '' ? [] : [element.value]) };
}
