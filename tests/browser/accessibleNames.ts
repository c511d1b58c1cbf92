import type { Page } from 'playwright-core';

/** Roles that need a name although the keyboard does not stop at them. */
const namedRoles = new Set(['dialog', 'group', 'listbox', 'log', 'option']);

/** What the page puts the keyboard on as a place, not as a control. */
const places = new Set(['RootWebArea', 'listitem']);

interface AccessibleNode {
  readonly ignored: boolean;
  readonly role?: { readonly value?: unknown };
  readonly name?: { readonly value?: unknown };
  readonly properties?: readonly { readonly name: string; readonly value: { readonly value?: unknown } }[];
}

/** Roles of what can be used, or needs a name, that the browser's accessibility tree holds without one. */
export async function nameless(page: Page): Promise<string[]> {
  const session = await page.context().newCDPSession(page);
  const { nodes } = (await session.send('Accessibility.getFullAXTree')) as {
    readonly nodes: readonly AccessibleNode[];
  };
  await session.detach();
  return nodes
    .filter((node) => !node.ignored && needsName(node) && !node.name?.value)
    .map(({ role }) => String(role?.value));
}

function needsName({ role, properties = [] }: AccessibleNode): boolean {
  const canFocus = properties.some(({ name, value }) => name === 'focusable' && value.value === true);
  return namedRoles.has(String(role?.value)) || (canFocus && !places.has(String(role?.value)));
}
