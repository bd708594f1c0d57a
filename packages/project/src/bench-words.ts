import { plainAddress } from "@tapeworthy/core";
import type { Project } from "./project.ts";
import { parseSource, type Source, type SourceFile } from "./source.ts";

/** Texts of a file by their address. */
type Texts = ReadonlyMap<string, string>;
const kept = new WeakMap<SourceFile, Texts>();

/** Every single text of a file by its address: "plover/film.material". List items by their name, else by number from 1. */
function textsOf(file: SourceFile): Texts {
  const known = kept.get(file);
  if (known) return known;
  const out = new Map<string, string>();
  const visit = (at: Source, path: string): void => {
    if (at.kind === "scalar") out.set(path, at.text);
    if (at.kind === "map")
      for (const { key, value } of at.entries.values()) visit(value, path === "" ? key : `${path}.${key}`);
    if (at.kind === "list")
      for (const [i, item] of at.items.entries()) {
        const name = item.kind === "map" ? item.entries.get("name")?.value : undefined;
        visit(item, `${path}.${name?.kind === "scalar" ? name.text : i + 1}`);
      }
  };
  const { tree } = parseSource(file);
  if (tree) visit(tree, "");
  kept.set(file, out);
  return out;
}
/** The file an address stands in, and what stands before the path there. */
function fileOf(project: Project, address: string): { file: SourceFile; prefix: string } | undefined {
  const [, prefix, stem] = /^(?:(tapes)\/)?([^/]+)\//.exec(address) ?? [];
  if (stem === undefined) return undefined;
  const path = prefix === "tapes" ? `tapes/${stem}.yaml` : `units/${stem}.yaml`;
  const file = project.files.get(path);
  return file && { file, prefix: prefix === "tapes" ? `tapes/${stem}/` : `${stem}/` };
}

/**
 * Words that stand beside a number in its member: of "plover/film.friction" the film's material and how it opens. A reading made on another material
 * is a reading of something else.
 */
export function wordsBeside(project: Project, address: string): ReadonlyMap<string, string> {
  const found = fileOf(project, address);
  const out = new Map<string, string>();
  if (!found) return out;
  const path = address.slice(found.prefix.length);
  const parent = path.includes(".") ? path.slice(0, path.lastIndexOf(".") + 1) : "";
  // Words at the head of a unit's file name the design and its revision: those change with everything.
  if (parent === "" && !found.prefix.startsWith("tapes/")) return out;
  const plain = plainAddress(address);
  for (const [at, text] of textsOf(found.file)) {
    const full = found.prefix + at;
    if (!at.startsWith(parent) || /[.]/.test(at.slice(parent.length)) || project.givens.has(full)) continue;
    if (plainAddress(full) === plain || /(^|\.)(note|name|format)$/.test(at)) continue;
    out.set(full, text);
  }
  return out;
}
