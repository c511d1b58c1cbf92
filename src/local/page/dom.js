/**
 * Makes an element. Properties that start with "on" are listeners, `class` and names with a dash are attributes, the rest
 * are set on the element; children that are null are left out.
 * @param {string} tag
 * @param {Record<string, unknown>} [properties]
 * @param {...(Node | string | null | undefined)} children
 * @returns {HTMLElement}
 */
export function make(tag, properties = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (value === undefined || value === null) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), /** @type {EventListener} */ (value));
    else if (name === 'class' || name === 'role' || name === 'for' || name.includes('-'))
      element.setAttribute(name, String(value));
    else element[name] = value;
  }
  element.append(...children.filter((child) => child !== null && child !== undefined));
  return element;
}

/**
 * @param {string} id
 * @returns {HTMLElement}
 */
export function byId(id) {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`the page has no #${id}`);
  return element;
}

let count = 0;

/** An id that no other element of the page has. @param {string} stem */
export function freshId(stem) {
  count += 1;
  return `${stem}-${count}`;
}
