import {
  type BuiltForLetter,
  builtForLetters,
  type Quantity,
  type RowLetter,
  reservedWords,
  rowLetters,
} from "@tapeworthy/core";

/** The tape's letters as a unit file means them: the catalogue's of its width, and those of the pocket it is built for. */
export type Letters = Partial<Record<RowLetter | BuiltForLetter, Quantity>>;
export const pocketLetters = Object.keys(builtForLetters) as BuiltForLetter[];
export const isPocketLetter = (name: string): name is BuiltForLetter => Object.hasOwn(builtForLetters, name);
export const isRowLetter = (name: string): name is RowLetter => (rowLetters as readonly string[]).includes(name);

/** A name of one's own: begins with a letter and is no word of the notation. */
export const isName = (name: string): boolean => /^[A-Za-z][A-Za-z_0-9]*$/.test(name) && !reservedWords.has(name);
