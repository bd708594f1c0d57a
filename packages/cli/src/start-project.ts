import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join, sep } from "node:path";
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

/** The texts of an example by path, byte for byte. Throws CallError where there is no such example. */
export const exampleTexts = (example: string): ReadonlyMap<string, string> =>
  new Map([...filesOf(example, /\.(yaml|csv|md)$/)].map(([path, bytes]) => [path, bytes.toString("utf8")]));
/** The logs of its trials with all their rows, by path. */
export const exampleRaw = (example: string): ReadonlyMap<string, Uint8Array> => filesOf(example, /\.parquet$/);

function filesOf(example: string, wanted: RegExp): ReadonlyMap<string, Buffer> {
  const known = exampleNames();
  if (!known.includes(example)) {
    const near = nearest(example, known);
    throw new CallError(
      `There is no example "${example}".${near ? ` Did you mean "${near}"?` : ` There ${known.length === 1 ? "is" : "are"}: ${known.join(", ") || "none"}.`}`,
    );
  }
  const files = new Map<string, Buffer>();
  const take = (inner: string): void => {
    for (const name of readdirSync(join(examplesFolder, example, inner)).sort()) {
      const path = join(inner, name);
      const from = join(examplesFolder, example, path);
      if (statSync(from).isDirectory()) take(path);
      else if (wanted.test(name)) files.set(path.replaceAll(sep, "/"), readFileSync(from));
    }
  };
  take("");
  return files;
}

/** Copies an example into a new folder. Throws CallError where the name is taken or the example is not there. Returns the files written. */
export function startProject(folder: string, example: string): string[] {
  const files = new Map<string, string | Uint8Array>([...exampleTexts(example), ...exampleRaw(example)]);
  if (existsSync(folder)) throw new CallError(`"${folder}" is there already; nothing was written.`);
  for (const [path, content] of files) writeWhole(join(folder, path), content);
  return [...files.keys()];
}
