/**
 * Numbers typed into a form: "12", "7,5", " 7.5 "; empty fields are left out, anything else is named. "1,200" is named too: it could be
 * twelve hundred or a little over one.
 */
export function readNumbers(
  fields: Readonly<Record<string, string>>,
  names: readonly string[],
): { numbers: Record<string, number>; bad: string[] } {
  const numbers: Record<string, number> = {};
  const bad: string[] = [];
  for (const name of names) {
    const typed = (fields[name] ?? '').trim();
    if (typed === '') continue;
    const isClear = /^[-+]?\d+(?:[.,]\d+)?$/.test(typed) && !/^[-+]?[1-9]\d{0,2},\d{3}$/.test(typed);
    if (isClear) numbers[name] = Number(typed.replace(',', '.'));
    else bad.push(`${name} "${fields[name]}"`);
  }
  return { numbers, bad };
}
