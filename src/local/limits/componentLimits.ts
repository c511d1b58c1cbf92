import { ComponentType } from 'discord-api-types/v10';
import type { FieldPath, FormErrors } from '../http/refusal.ts';
import { customIdsOf, everyComponent } from '../messages/componentTree.ts';
import type { WireComponent } from '../wire.ts';
import { checkButton, checkSelect, isSelect } from './controlLimits.ts';

/** Components of a message in the newer form, nested ones counted. */
export const COMPONENTS_IN_ALL = 40;
/** Characters over all text displays of a message. */
export const DISPLAYED_CHARACTERS = 4000;
/** Rows of a message in the older form. */
export const ACTION_ROWS = 5;

/** The documented rules for the components of a message that the published schemas lack. */
export function checkComponents(components: WireComponent[], isV2: boolean, path: FieldPath, errors: FormErrors): void {
  if (isV2) checkTotals(components, path, errors);
  else checkLegacyRows(components, path, errors);
  components.forEach((component, index) => {
    checkTree(component, [...path, index], errors);
  });
  checkRepeats(components, path, errors);
}

function checkLegacyRows(components: WireComponent[], path: FieldPath, errors: FormErrors): void {
  if (components.length > ACTION_ROWS)
    errors.add(path, 'BASE_TYPE_BAD_LENGTH', `Must be between 1 and ${ACTION_ROWS} in length.`);
  components.forEach((component, index) => {
    if (component.type !== ComponentType.ActionRow)
      errors.add([...path, index, 'type'], 'UNION_TYPE_CHOICES', 'Value of field "type" must be one of (1,).');
  });
}

function checkTotals(components: WireComponent[], path: FieldPath, errors: FormErrors): void {
  const all = everyComponent(components);
  if (all.length > COMPONENTS_IN_ALL)
    errors.add(
      path,
      'COMPONENT_MAX_TOTAL_COMPONENTS_EXCEEDED',
      `The total number of components exceeds the maximum of ${COMPONENTS_IN_ALL}`,
    );
  const characters = all.reduce((sum, component) => sum + textLength(component), 0);
  if (characters > DISPLAYED_CHARACTERS)
    errors.add(
      path,
      'COMPONENT_DISPLAYABLE_TEXT_SIZE_EXCEEDED',
      `The total text size exceeds the maximum of ${DISPLAYED_CHARACTERS}`,
    );
}

function textLength(component: WireComponent): number {
  return component.type === ComponentType.TextDisplay ? (component.content ?? '').length : 0;
}

function checkTree(component: WireComponent, path: FieldPath, errors: FormErrors): void {
  if (component.type === ComponentType.ActionRow) checkRow(component, path, errors);
  if (component.type === ComponentType.Button) checkButton(component, path, errors);
  if (isSelect(component)) checkSelect(component, path, errors);
  if (component.type === ComponentType.TextDisplay && (component.content ?? '').trim() === '')
    errors.add([...path, 'content'], 'BASE_TYPE_REQUIRED', 'This field is required');
  if (component.type === ComponentType.File && !(component.file?.url ?? '').startsWith('attachment://'))
    errors.add([...path, 'file', 'url'], 'URL_TYPE_INVALID_SCHEME', 'The file must be an attachment:// reference.');
  component.components?.forEach((child, index) => {
    checkTree(child, [...path, 'components', index], errors);
  });
  if (component.accessory !== undefined) checkTree(component.accessory, [...path, 'accessory'], errors);
}

function checkRow(row: WireComponent, path: FieldPath, errors: FormErrors): void {
  const children = row.components ?? [];
  const selects = children.filter(isSelect).length;
  if (selects > 0 && children.length > 1)
    errors.add(
      [...path, 'components'],
      'COMPONENT_LAYOUT_WIDTH_EXCEEDED',
      'A row holds one select, or up to five buttons.',
    );
}

function checkRepeats(components: WireComponent[], path: FieldPath, errors: FormErrors): void {
  const seen = new Set<string>();
  for (const customId of customIdsOf(components)) {
    if (seen.has(customId))
      errors.add(path, 'COMPONENT_CUSTOM_ID_DUPLICATED', `Component custom id cannot be duplicated: ${customId}`);
    seen.add(customId);
  }
  const numbers = everyComponent(components).flatMap((component) => (component.id ? [component.id] : []));
  if (new Set(numbers).size < numbers.length)
    errors.add(path, 'COMPONENT_ID_DUPLICATED', 'Component id cannot be duplicated');
}
