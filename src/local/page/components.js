import { freshId, make } from './dom.js';
import { showMarkdown } from './markdown.js';
import { showFile, showPicture } from './media.js';

const ROW = 1;
const BUTTON = 2;
const STRING_SELECT = 3;
const USER_SELECT = 5;
const CHANNEL_SELECT = 8;
const SECTION = 9;
const TEXT = 10;
const THUMBNAIL = 11;
const GALLERY = 12;
const FILE = 13;
const SEPARATOR = 14;
const CONTAINER = 17;
const LINK_STYLE = 5;
const STYLE_CLASSES = { 1: 'main', 4: 'danger' };

/** The components of a message, in either form. */
export function showComponents(message, view) {
  return message.components.map((component) => show(component, message, view));
}

function show(component, message, view) {
  const children = () => (component.components ?? []).map((child) => show(child, message, view));
  switch (component.type) {
    case ROW:
      return make('div', { class: 'part row' }, ...children());
    case CONTAINER:
      return make('div', { class: 'part box' }, ...children());
    case SECTION:
      return make(
        'div',
        { class: 'part section' },
        make('div', {}, ...children()),
        show(component.accessory, message, view),
      );
    case TEXT:
      return make('div', { class: 'part' }, showMarkdown(component.content, view.names));
    case SEPARATOR:
      return make('hr', { class: component.divider ? '' : 'bare' });
    case THUMBNAIL:
      return showPicture(component.media, component.description ?? 'Picture');
    case GALLERY:
      return make(
        'div',
        { class: 'part' },
        ...component.items.map((item) => showPicture(item.media, item.description ?? 'Picture')),
      );
    case FILE:
      return make(
        'div',
        { class: 'part' },
        showFile(component.file.url, component.name ?? 'file', component.size ?? 0),
      );
    case BUTTON:
      return showButton(component, message, view);
    default:
      return showSelect(component, message, view);
  }
}

function showButton(component, message, view) {
  const words = [component.emoji?.name, component.label].filter(Boolean).join(' ');
  if (component.style === LINK_STYLE)
    return make('a', { href: component.url, target: '_blank', rel: 'noreferrer' }, words);
  const press = (event) => view.press(message, component, event.currentTarget);
  const disabled = component.disabled ?? false;
  return make('button', { type: 'button', class: STYLE_CLASSES[component.style], disabled, onclick: press }, words);
}

/** A select with its own button to send the choice, so that moving through it by keyboard chooses nothing by accident. */
function showSelect(component, message, view) {
  const options = optionsOf(component, view.names);
  const most = component.max_values ?? 1;
  const disabled = component.disabled ?? false;
  const words = component.placeholder ?? 'Choose';
  const send = (event, values) => view.choose(message, component, values, event.currentTarget);
  if (most === 1) {
    const id = freshId('select');
    const entries = options.map((option) =>
      make(
        'option',
        { value: option.value, defaultSelected: option.default ?? false },
        [option.label, option.description].filter(Boolean).join(' · '),
      ),
    );
    const none = make('option', { value: '' }, 'Pick one');
    const select = make('select', { id, disabled, required: true }, none, ...entries);
    const choose = (event) => {
      if (select.reportValidity()) send(event, [select.value]);
    };
    const button = make(
      'button',
      { type: 'button', disabled, onclick: choose, 'aria-label': `Send: ${words}` },
      'Send',
    );
    return make(
      'div',
      { class: 'chooser' },
      make('div', { class: 'field' }, make('label', { for: id }, words), select),
      button,
    );
  }
  const ticks = options.map((option) =>
    make('input', { type: 'checkbox', value: option.value, defaultChecked: option.default ?? false, disabled }),
  );
  const choose = (event) =>
    send(
      event,
      ticks.filter((tick) => tick.checked).map((tick) => tick.value),
    );
  return make(
    'fieldset',
    { class: 'ticks' },
    make('legend', {}, words),
    ...ticks.map((tick, index) =>
      make('label', {}, tick, [options[index].label, options[index].description].filter(Boolean).join(' · ')),
    ),
    make('button', { type: 'button', disabled, onclick: choose, 'aria-label': `Send: ${words}` }, 'Send ticked'),
  );
}

/** What a select offers: its own options, or the people or channels here. */
export function optionsOf(component, names) {
  if (component.type === STRING_SELECT || component.options !== undefined) return component.options ?? [];
  const given = (component.default_values ?? []).map((entry) => entry.id);
  const source = component.type === CHANNEL_SELECT ? names.channels : names.users;
  const sign = component.type === CHANNEL_SELECT ? '#' : '';
  if (component.type !== CHANNEL_SELECT && component.type !== USER_SELECT) return [];
  return source.map((entry) => ({ label: sign + entry.name, value: entry.id, default: given.includes(entry.id) }));
}
