/** Nouns that people can edit, each kept as versions: the latest whose entry is not voided holds. */
type Noun = 'chore' | 'closed_window' | 'goods' | 'line' | 'outlet' | 'sale' | 'tub';

const latest = (noun: Noun, id: string): string =>
  `SELECT max(o.id) FROM ${noun}_version o JOIN live_entry oe ON oe.id = o.entry_id WHERE o.${noun}_id = ${id}`;

/** Condition under which a row `v` of a noun's versions is the one that holds. */
export const isCurrent = (noun: Noun): string => `v.id = (${latest(noun, `v.${noun}_id`)})`;

/** The version of each thing that holds; further conditions on `v` can follow with AND. */
export const currentVersions = (noun: Noun): string => `SELECT v.* FROM ${noun}_version v WHERE ${isCurrent(noun)}`;

/** The name, as it is now, of the thing that an expression is the id of. */
export const currentName = (noun: Noun, id: string): string =>
  `(SELECT n.name FROM ${noun}_version n WHERE n.id = (${latest(noun, id)}))`;
