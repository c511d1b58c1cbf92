import { ComponentType } from 'discord-api-types/v10';
import { type FieldPath, FormErrors } from '../http/refusal.ts';
import { customIdsOf } from '../messages/componentTree.ts';
import type { WireComponent, WireModal } from '../wire.ts';
import { checkSelect, isSelect } from './controlLimits.ts';

/** Top-level components of a form. */
export const MODAL_COMPONENTS = 5;

/** The documented rules for a form that the published schemas lack. @throws ApiRefusal 50035 */
export function checkModalLimits(modal: WireModal, under: FieldPath): void {
  const errors = new FormErrors();
  const path = [...under, 'components'];
  if (modal.components.length > MODAL_COMPONENTS)
    errors.add(path, 'BASE_TYPE_BAD_LENGTH', `Must be between 1 and ${MODAL_COMPONENTS} in length.`);
  modal.components.forEach((component, index) => {
    checkTop(component, [...path, index], errors);
  });
  const seen = new Set<string>();
  for (const customId of customIdsOf(modal.components)) {
    if (seen.has(customId))
      errors.add(path, 'COMPONENT_CUSTOM_ID_DUPLICATED', `Component custom id cannot be duplicated: ${customId}`);
    seen.add(customId);
  }
  errors.refuseIfAny();
}

function checkTop(component: WireComponent, path: FieldPath, errors: FormErrors): void {
  if (component.type === ComponentType.ActionRow) {
    component.components?.forEach((child, index) => {
      if ((child.label ?? '') === '')
        errors.add([...path, 'components', index, 'label'], 'BASE_TYPE_REQUIRED', 'This field is required');
      checkInput(child, [...path, 'components', index], errors);
    });
    if ((component.components ?? []).length > 1)
      errors.add([...path, 'components'], 'COMPONENT_LAYOUT_WIDTH_EXCEEDED', 'A row of a form holds one text input.');
  }
  if (component.component !== undefined) {
    if (component.component.type === ComponentType.TextInput && component.component.label)
      errors.add(
        [...path, 'component', 'label'],
        'TEXT_INPUT_LABEL_IN_LABEL',
        'A text input in a label has no label of its own.',
      );
    checkInput(component.component, [...path, 'component'], errors);
  }
}

function checkInput(input: WireComponent, path: FieldPath, errors: FormErrors): void {
  if (isSelect(input)) checkSelect(input, path, errors);
  if (input.type !== ComponentType.TextInput) return;
  const least = input.min_length ?? 0;
  const most = input.max_length ?? 4000;
  if (least > most)
    errors.add([...path, 'min_length'], 'NUMBER_TYPE_MAX', `int value should be less than or equal to ${most}.`);
  const value = input.value ?? '';
  if (value !== '' && (value.length < least || value.length > most))
    errors.add([...path, 'value'], 'BASE_TYPE_BAD_LENGTH', `Must be between ${least} and ${most} in length.`);
}
