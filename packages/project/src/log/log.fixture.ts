import { finished } from "@tapeworthy/core";
import { showError } from "../error.ts";
import type { Wish } from "./dialect.ts";
import { type Asked, imported } from "./import-log.ts";
import type { Log } from "./log.ts";
import { guessedMapping, mappingWish, withWishes } from "./mapping.ts";
import { readLog } from "./read-log.ts";

export const bytesOf = (text: string): Uint8Array => Uint8Array.from([...text].map((c) => c.charCodeAt(0)));
export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Reads a log that must be one. */
export async function logOf(text: string | Uint8Array, wish: Wish = {}, file = "run.csv"): Promise<Log> {
  const { log, errors } = await readLog(file, [text], wish);
  if (!log) throw new Error(errors.map(showError).join("\n"));
  return log;
}
/** Everything that is said of a log: of its reading, and where it is read, of its mapping and its numbers. */
export async function saidOf(
  text: string | Uint8Array,
  more: { readonly wish?: Wish; readonly map?: readonly string[]; readonly asked?: Asked } = {},
): Promise<string> {
  const { log, errors } = await readLog("run.csv", [text], more.wish);
  if (!log) return errors.map(showError).join("\n\n");
  const wishes = (more.map ?? []).map((w) => mappingWish(w, log));
  const bad = wishes.find((w) => typeof w === "string");
  if (typeof bad === "string") return bad;
  const mapping = withWishes(
    guessedMapping(log),
    wishes.filter((w) => typeof w !== "string"),
  );
  const result = finished(imported(log, mapping, more.asked));
  if (!result.imported) return result.errors.map(showError).join("\n\n");
  return result.imported.remarks
    .map(({ first, count }) => `${showError(first)}${count > 1 ? `\n${count} times.` : ""}`)
    .join("\n\n");
}
/** The numbers of a column, gaps as null. */
export const numbersOf = (log: Log, name: string): (number | null)[] => {
  const c = log.columns.find((one) => one.name === name);
  if (c?.kind !== "number") throw new Error(`no column of numbers "${name}"`);
  return [...c.values].map((v) => (Number.isNaN(v) ? null : v));
};
export const wordsOf = (log: Log, name: string): (string | null)[] => {
  const c = log.columns.find((one) => one.name === name);
  if (c?.kind !== "text") throw new Error(`no column of texts "${name}"`);
  return [...c.codes].map((code) => c.words[code] ?? null);
};
