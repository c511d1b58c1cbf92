import { ComponentType } from 'discord-api-types/v10';
import type { JsonObject, WireComponent, WireModal } from '../wire.ts';
import type { FieldValue } from './asks.ts';
import type { Resolved } from './resolved.ts';
import { selectValues } from './selectValues.ts';
import { WrongAsk } from './wrongAsk.ts';

interface Field {
  /** The text by which a person knows the field. */
  label: string;
  input: WireComponent;
}

/** The fields of a form in order, each with the label that a person sees. */
export function fieldsOf(modal: WireModal): Field[] {
  return modal.components.flatMap((top) => {
    if (top.component !== undefined) return [{ label: top.label ?? '', input: top.component }];
    return (top.components ?? []).map((input) => ({ label: input.label ?? '', input }));
  });
}

/** Fills a form in as a person would and gives it in the shape in which it was asked. */
export function fillForm(modal: WireModal, values: Record<string, FieldValue>, resolved: Resolved): JsonObject[] {
  const fields = fieldsOf(modal);
  const unknown = Object.keys(values).find((key) => !fields.some((field) => isNamed(field, key)));
  if (unknown !== undefined) throw new WrongAsk(`the form "${modal.title}" has no field "${unknown}"`);
  const fill = (input: WireComponent): JsonObject => {
    const field = fields.find((entry) => entry.input === input) ?? { label: '', input };
    const key = Object.keys(values).find((name) => isNamed(field, name));
    return fillField(field, key === undefined ? undefined : values[key], resolved);
  };
  return modal.components.map((top, index) => {
    const id = top.id ?? index + 1;
    if (top.component !== undefined) return { type: top.type, id, component: fill(top.component) };
    if (top.type === ComponentType.TextDisplay) return { type: top.type, id };
    return { type: top.type, id, components: (top.components ?? []).map(fill) };
  });
}

function isNamed(field: Field, key: string): boolean {
  return field.input.custom_id === key || field.label === key;
}

function fillField(field: Field, value: FieldValue | undefined, resolved: Resolved): JsonObject {
  const { input, label } = field;
  const shared = { type: input.type, id: input.id ?? 0, custom_id: input.custom_id ?? '' };
  if (input.type === ComponentType.TextInput) return { ...shared, value: fillText(input, label, value) };
  if (input.type === ComponentType.Checkbox) return { ...shared, value: value === true };
  if (input.type === ComponentType.FileUpload) return { ...shared, values: fillFiles(input, label, value, resolved) };
  const wanted = typeof value === 'string' ? [value] : Array.isArray(value) ? value.map(String) : defaultsOf(input);
  const isRequired = input.required ?? true;
  if (wanted.length === 0 && !isRequired) return { ...shared, values: [] };
  const chosen = selectValues(input, wanted, resolved);
  return input.type === ComponentType.RadioGroup
    ? { ...shared, value: chosen[0] ?? null }
    : { ...shared, values: chosen };
}

function fillText(input: WireComponent, label: string, value: FieldValue | undefined): string {
  const text = value === undefined ? (input.value ?? '') : String(value);
  const isRequired = input.required ?? true;
  if (text === '' && !isRequired) return text;
  const least = Math.max(isRequired ? 1 : 0, input.min_length ?? 0);
  const most = input.max_length ?? 4000;
  if (text.length < least || text.length > most)
    throw new WrongAsk(`the field "${label || input.custom_id}" takes ${least} to ${most} characters`);
  return text;
}

function fillFiles(input: WireComponent, label: string, value: FieldValue | undefined, resolved: Resolved): string[] {
  const files = Array.isArray(value) ? value : [];
  const least = (input.required ?? true) ? (input.min_values ?? 1) : 0;
  const most = input.max_values ?? 1;
  if (files.length < least || files.length > most)
    throw new WrongAsk(`the field "${label}" takes ${least} to ${most} files`);
  return files.map((file) => resolved.file(label, file));
}

function defaultsOf(input: WireComponent): string[] {
  const given = (input.default_values ?? []).map((entry) => entry.id);
  return [...given, ...(input.options ?? []).filter((option) => option.default).map((option) => option.value)];
}
