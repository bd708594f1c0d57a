import { NotationError } from "./expression.ts";

/** What is said of a text, as a reader would see it: the text, what is meant underlined, found and expected, the way out. */
export function refusal(read: () => unknown, text: string): string {
  try {
    read();
  } catch (e) {
    if (!(e instanceof NotationError)) throw e;
    const lines = [text, `${" ".repeat(e.at)}${"^".repeat(e.length)}`, `found ${e.found}, expected ${e.expected}`];
    return [...lines, ...(e.hint === undefined ? [] : [e.hint])].join("\n");
  }
  return `${text}\nis accepted`;
}
/** The same from the lines of a table. */
export const said = (...lines: string[]): string => lines.join("\n");
/** A message with the text it is about, for a table of tests that are called by their texts. */
export const byText = (message: string): readonly [text: string, message: string] => [
  message.slice(0, message.indexOf("\n")),
  message,
];
