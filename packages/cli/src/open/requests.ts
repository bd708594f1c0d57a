import type { EditWish } from "@tapeworthy/project";

/** What is wrong with a request's fields, or the fields. */
export type Read<T> = T | string;
type Body = Readonly<Record<string, unknown>>;

const longestName = 200;
const isName = (value: unknown): value is string =>
  typeof value === "string" && value.length > 0 && value.length <= longestName;

export function editWish({ file, base, changes, gesture, done, id }: Body): Read<EditWish> {
  if (!isName(file)) return '"file" is a path such as "units/plover.yaml".';
  if (base !== null && typeof base !== "string")
    return '"base" is the hash of the text that was changed, or null for a new file.';
  if (!isName(gesture)) return `"gesture" is a name of up to ${longestName} characters.`;
  if (typeof done !== "boolean") return '"done" is true or false.';
  if (id !== undefined && !isName(id)) return `"id" is a name of up to ${longestName} characters.`;
  return { file, base, changes, gesture, done, ...(id === undefined ? {} : { id }) };
}
/** Undo and redo take nothing, or the gesture that is to be left out. */
export function skipWish({ skip }: Body): Read<{ readonly skip?: string }> {
  if (skip === undefined) return {};
  return typeof skip === "string" ? { skip } : '"skip" is the gesture that could not be taken back.';
}
/** Which of the bundled examples a folder begins with. */
export function beginWish({ from }: Body, examples: readonly string[]): Read<{ readonly example: string }> {
  const example = examples.find((name) => name === from);
  return example === undefined ? `"from" is an example: ${examples.join(", ")}.` : { example };
}
export function offerAnswer({ offer, answer }: Body): Read<{ readonly offer: string; readonly take: boolean }> {
  if (typeof offer !== "string") return '"offer" is the id of an offer.';
  if (answer !== "take" && answer !== "drop") return '"answer" is "take" or "drop".';
  return { offer, take: answer === "take" };
}
/** The file that an address asks for, and nothing else; undefined where it does not say so plainly. */
export function fileAsked(query: string): string | undefined {
  const asked = [...new URLSearchParams(query)];
  const [[key, file] = []] = asked;
  return asked.length === 1 && key === "file" && isName(file) ? file : undefined;
}
