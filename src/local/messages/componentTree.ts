import type { WireComponent } from '../wire.ts';

/** Every component of a tree, parents before children, accessories and labelled fields included. */
export function everyComponent(components: readonly WireComponent[]): WireComponent[] {
  return components.flatMap((component) => [
    component,
    ...everyComponent(component.components ?? []),
    ...(component.accessory === undefined ? [] : everyComponent([component.accessory])),
    ...(component.component === undefined ? [] : everyComponent([component.component])),
  ]);
}

export function customIdsOf(components: readonly WireComponent[]): string[] {
  return everyComponent(components).flatMap((component) => (component.custom_id ? [component.custom_id] : []));
}
