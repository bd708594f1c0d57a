import type { SizedLine } from "@tapeworthy/core";
import { applied, type Edit, valueChanged } from "./edit.ts";
import { writtenForWidth } from "./per-width.ts";
import { readProject, type Texts } from "./project.ts";

/**
 * A unit's file with the lines of a sizing written, comments and order kept: one change of one file. Throws RangeError where a number stands in
 * another file, or the files do not read.
 */
export function sizedText(
  texts: Texts,
  unit: string,
  lines: readonly SizedLine[],
): { readonly file: string; readonly text: string } {
  const file = `units/${unit}.yaml`;
  let now = texts;
  const take = (edit: Edit): void => {
    if (edit.file !== file) throw new RangeError(`A line of the sizing stands in ${edit.file}, not in ${file}.`);
    now = new Map(now).set(file, applied(edit, now.get(file)!));
  };
  for (const { address, path, width, written } of lines) {
    // Read anew each time: an edit moves what stands behind it on its line.
    if (width === undefined) {
      const number = readProject(now).project?.givens.get(address);
      if (!number) throw new RangeError(`There is no number ${address} in the files.`);
      take(valueChanged(now, number, written));
    } else take(writtenForWidth(now.get(file)!, file, width, path, written));
  }
  const { errors } = readProject(now);
  if (errors.length > 0)
    throw new RangeError(`With these lines the files do not read: ${errors[0]!.found} in ${errors[0]!.place.file}.`);
  return { file, text: now.get(file)! };
}
