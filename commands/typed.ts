/** Numbers typed into a form: "12", "7,5", " 7.5 "; empty fields are left out, anything else is named. */
export function readNumbers(
  fields: Readonly<Record<string, string>>,
  names: readonly string[],
): { numbers: Record<string, number>; bad: string[] } {
  const numbers: Record<string, number> = {};
  const bad: string[] = [];
  for (const name of names) {
    const typed = (fields[name] ?? '').trim().replace(',', '.');
    if (typed === '') continue;
    if (/^[-+]?\d+(\.\d+)?$/.test(typed)) numbers[name] = Number(typed);
    else bad.push(`${name} "${fields[name]}"`);
  }
  return { numbers, bad };
}
