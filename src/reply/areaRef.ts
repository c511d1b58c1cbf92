/** Room that a place's name has in a custom id, once its letters are written for one. */
const mostEncoded = 60;

/** As much of a place's name as travels in a custom id: all of it, or its beginning with a mark that more follows. */
export function areaRef(area: string): string {
  if (encodeURIComponent(area).length <= mostEncoded) return area;
  const letters = [...area];
  while (encodeURIComponent(`${letters.join('')}…`).length > mostEncoded) letters.pop();
  return `${letters.join('')}…`;
}

/** The place that is meant, among those that are known; a whole name may be of one that is not. */
export function areaOfRef(ref: string, known: readonly string[]): string | undefined {
  if (!ref.endsWith('…')) return ref;
  return known.find((area) => area.startsWith(ref.slice(0, -1)));
}
