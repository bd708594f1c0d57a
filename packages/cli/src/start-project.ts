import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { nearest } from "@tapeworthy/project";
import { CallError, writeWhole } from "./folder.ts";

/** Where the bundled examples lie. */
const examplesFolder = fileURLToPath(new URL("../../../examples/", import.meta.url));
export const exampleNames = (): string[] =>
  existsSync(examplesFolder)
    ? readdirSync(examplesFolder, { withFileTypes: true })
        .filter((e) => e.isDirectory() && existsSync(join(examplesFolder, e.name, "project.yaml")))
        .map((e) => e.name)
        .sort()
    : [];

/** The files of an example by path, byte for byte. Throws CallError where there is no such example. */
export function exampleTexts(example: string): ReadonlyMap<string, string> {
  const known = exampleNames();
  if (!known.includes(example)) {
    const near = nearest(example, known);
    throw new CallError(
      `There is no example "${example}".${near ? ` Did you mean "${near}"?` : ` There ${known.length === 1 ? "is" : "are"}: ${known.join(", ") || "none"}.`}`,
    );
  }
  const texts = new Map<string, string>();
  const take = (inner: string): void => {
    for (const name of readdirSync(join(examplesFolder, example, inner)).sort()) {
      const path = join(inner, name);
      const from = join(examplesFolder, example, path);
      if (statSync(from).isDirectory()) take(path);
      else if (/\.(yaml|csv|md)$/.test(name)) texts.set(path, readFileSync(from, "utf8"));
    }
  };
  take("");
  return texts;
}

/** Copies an example into a new folder. Throws CallError where the name is taken or the example is not there. Returns the files written. */
export function startProject(folder: string, example: string): string[] {
  const texts = exampleTexts(example);
  if (existsSync(folder)) throw new CallError(`"${folder}" is there already; nothing was written.`);
  for (const [path, text] of texts) writeWhole(join(folder, path), text);
  return [...texts.keys()];
}
