/** Characters of a table's row that a phone shows without breaking it. */
const mostCharacters = 38;

/** A row in fixed width from its parts; what does not fit is left out whole, or at the end of a word. */
export function rowOf(parts: readonly string[]): string {
  const row = parts.filter((part) => part !== '').join(' ');
  if (row.trimEnd().length <= mostCharacters) return row.trimEnd();
  const shown = row.slice(0, mostCharacters + 1);
  return shown.slice(0, Math.max(shown.lastIndexOf(' '), 1)).trimEnd();
}
