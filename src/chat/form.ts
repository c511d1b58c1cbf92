import { type APIModalInteractionResponseCallbackData, ComponentType, TextInputStyle } from 'discord.js';
import { customIdOf, type Form, type FormField } from '../reply/index.ts';
import { clipped, limits } from './limits.ts';

/** A form as the service's pop-up: a label with a text input for each field. */
export function renderForm(form: Form): APIModalInteractionResponseCallbackData {
  return {
    custom_id: customIdOf(form.press),
    title: clipped(form.title, limits.formTitle),
    components: form.fields.slice(0, limits.formFields).map(labelOf),
  };
}

const labelOf = (field: FormField) => ({
  type: ComponentType.Label as const,
  label: clipped(field.label, limits.fieldLabel),
  ...(field.hint === undefined ? {} : { description: clipped(field.hint, limits.fieldHint) }),
  component: {
    type: ComponentType.TextInput as const,
    custom_id: field.id,
    style: field.lines === 'one' ? TextInputStyle.Short : TextInputStyle.Paragraph,
    required: field.required ?? false,
    max_length: limits.fieldText,
    ...(field.value === undefined || field.value === '' ? {} : { value: field.value.slice(0, limits.fieldText) }),
  },
});
