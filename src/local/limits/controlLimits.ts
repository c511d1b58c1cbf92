import { ButtonStyle, ComponentType } from 'discord-api-types/v10';
import type { FieldPath, FormErrors } from '../http/refusal.ts';
import type { WireComponent } from '../wire.ts';

const SELECT_TYPES: readonly number[] = [
  ComponentType.StringSelect,
  ComponentType.UserSelect,
  ComponentType.RoleSelect,
  ComponentType.MentionableSelect,
  ComponentType.ChannelSelect,
];

export function isSelect(component: WireComponent): boolean {
  return SELECT_TYPES.includes(component.type);
}

/** A link carries a url, every other button a custom id; each shows a label or an emoji. */
export function checkButton(button: WireComponent, path: FieldPath, errors: FormErrors): void {
  const hasId = (button.custom_id ?? '') !== '';
  const hasUrl = (button.url ?? '') !== '';
  if (button.style === ButtonStyle.Link) {
    if (!hasUrl) errors.add([...path, 'url'], 'BASE_TYPE_REQUIRED', 'A url is required');
    if (hasId)
      errors.add(
        [...path, 'custom_id'],
        'BUTTON_COMPONENT_CUSTOM_ID_URL_MUTUALLY_EXCLUSIVE',
        'A custom id and url cannot both be specified',
      );
  } else if (button.style !== ButtonStyle.Premium) {
    if (!hasId) errors.add([...path, 'custom_id'], 'BASE_TYPE_REQUIRED', 'A custom id is required');
    if (hasUrl)
      errors.add(
        [...path, 'url'],
        'BUTTON_COMPONENT_CUSTOM_ID_URL_MUTUALLY_EXCLUSIVE',
        'A custom id and url cannot both be specified',
      );
    if ((button.label ?? '') === '' && !button.emoji)
      errors.add([...path, 'label'], 'BUTTON_COMPONENT_LABEL_REQUIRED', 'A label or an emoji is required');
  }
}

/** Least and most values must agree with each other, with the options, and with what is chosen beforehand. */
export function checkSelect(select: WireComponent, path: FieldPath, errors: FormErrors): void {
  const least = select.min_values ?? 1;
  const most = select.max_values ?? 1;
  if (least > most)
    errors.add([...path, 'min_values'], 'NUMBER_TYPE_MAX', `int value should be less than or equal to ${most}.`);
  const options = select.options;
  if (select.type !== ComponentType.StringSelect || options === undefined) return;
  if (most > options.length)
    errors.add(
      [...path, 'max_values'],
      'NUMBER_TYPE_MAX',
      `int value should be less than or equal to ${options.length}.`,
    );
  if (options.filter((option) => option.default).length > most)
    errors.add(
      [...path, 'options'],
      'SELECT_COMPONENT_TOO_MANY_DEFAULT_VALUES',
      `At most ${most} may be chosen beforehand`,
    );
  const seen = new Set<string>();
  options.forEach((option, index) => {
    if (seen.has(option.value))
      errors.add(
        [...path, 'options', index, 'value'],
        'SELECT_COMPONENT_OPTION_VALUE_DUPLICATED',
        'The specified option value is already used',
      );
    seen.add(option.value);
  });
}
