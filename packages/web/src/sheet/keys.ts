/** The keys of the sheet, in the order in which the table of keys lists them. Single keys act outside text fields only. */
export const keys = [
  { name: "sheet 1", key: "1", says: "Sheet 1, Unit" },
  { name: "sheet 2", key: "2", says: "Sheet 2, Bench" },
  { name: "find", key: "/", says: "Find a part, a check, a tape, a number or a key" },
  { name: "keys", key: "?", says: "This table of keys" },
  { name: "known", key: "k", says: "What is known" },
  { name: "first", key: "f", says: "What stops this tape first" },
  { name: "tape", key: "t", says: "The next tape" },
  { name: "question", key: "n", says: "The next question: what most tapes hang on; on the bench its question there" },
  { name: "moved", key: "m", says: "What the last change moved" },
  { name: "ladder", key: "l", says: "Width ladder" },
  { name: "compare", key: "c", says: "Compare units" },
  { name: "sweep", key: "s", says: "Sweep the open check over a number" },
  { name: "index", key: "i", says: "One index in time; on the bench read a log" },
  { name: "pick", key: "e", says: "Error at the pick" },
  { name: "misfeed", key: "r", says: "Rate of misfeeds, by mode" },
  { name: "size", key: "w", says: "Widen all windows" },
  { name: "text", key: "x", says: "The unit's text beside the drawing" },
  { name: "undo", key: "z", says: "Undo the last change" },
  { name: "redo", key: "Z", says: "Do it again" },
  { name: "theme", key: "d", says: "Light or dark" },
  { name: "unfold", key: "Enter", says: "Unfold the finding over drawing and map; on a diamond, type its number" },
  { name: "fold", key: "Escape", says: "Fold what is open, put back what is being typed or drawn" },
] as const;
export type KeyName = (typeof keys)[number]["name"];

/** Keys that act where they are pressed: read in the table of keys, heard by the map and the diamonds. */
export const localKeys = [
  { key: "arrows", says: "On the map from cell to cell; on a diamond by 0.1, with Shift by 1" },
  { key: "Home, End", says: "First and last check of a tape" },
  {
    key: "arrows",
    says: "On the bench from question to question; on a plateau's flag along the log, with Shift in large steps",
  },
  { key: "Enter", says: "On a question opens its card; in a reading goes to the next one" },
  { key: "Tab", says: "From the diamonds to the map and on to the finding" },
] as const;

/** What of a pressed key matters here. */
export interface Pressed {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  /** Within a text field. */
  readonly typing: boolean;
}

/**
 * What a pressed key asks for. The platform's own keys for undo, redo and find act everywhere but in a text field, single keys only where they
 * are switched on. Caps Lock turns no undo into a redo: Shift tells them apart.
 */
export function keyNamed(pressed: Pressed, single: boolean): KeyName | undefined {
  const { key, shiftKey, typing } = pressed;
  if (key === "Escape") return "fold";
  if (typing || pressed.altKey) return undefined;
  if (pressed.ctrlKey || pressed.metaKey) {
    const letter = key.toLowerCase();
    if (letter === "z") return shiftKey ? "redo" : "undo";
    if (letter === "y" && !shiftKey) return "redo";
    return letter === "f" && !shiftKey ? "find" : undefined;
  }
  if (key === "Enter") return "unfold";
  if (!single) return undefined;
  if (key.toLowerCase() === "z") return shiftKey ? "redo" : "undo";
  if (key === "?" || key === "/") return key === "?" ? "keys" : "find";
  if (shiftKey) return undefined;
  return keys.find((one) => one.key === key.toLowerCase())?.name;
}
