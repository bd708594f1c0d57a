import { assumptionNames, isPlace } from "@tapeworthy/core";
import {
  applied,
  nearest,
  type Project,
  type ProjectError,
  readProject,
  showError,
  type Texts,
  valueChanged,
} from "@tapeworthy/project";
import { CallError } from "./folder.ts";

/** Errors in the project's files, all of them. Exit 2. */
export class BadProject extends Error {
  override readonly name = "BadProject";
  readonly errors: readonly ProjectError[];
  constructor(errors: readonly ProjectError[]) {
    super(`${errors.length} ${errors.length === 1 ? "error" : "errors"}`);
    this.errors = errors;
  }
  text(): string {
    const count = this.errors.length;
    return `${this.errors.map(showError).join("\n\n")}\n\n${count === 1 ? "1 error" : `${count} errors`} in the project's files. Nothing was computed.`;
  }
}

/** Reads a project from its texts. Throws BadProject with every error. */
export function load(texts: Texts): Project {
  const { project, errors } = readProject(texts);
  if (!project) throw new BadProject(errors);
  return project;
}

/**
 * The texts with some numbers changed, as `--vary ADDRESS=VALUE` asks: each is an edit of the file the number stands in, so it is read and
 * refused as if it had been typed there. `assume/NAME` goes into project.yaml. Nothing is written.
 */
export function varied(texts: Texts, project: Project, wishes: readonly string[]): Texts {
  let now = texts;
  let read = project;
  for (const wish of wishes) {
    const at = wish.indexOf("=");
    if (at < 1)
      throw new CallError(`"${wish}" is no ADDRESS=VALUE. For example: --vary "plover/nip.preload=5 ±0.5 N".`);
    const address = wish.slice(0, at).trim();
    const value = wish.slice(at + 1).trim();
    now = one(now, read, address, value);
    read = load(now);
  }
  return now;
}
function one(texts: Texts, project: Project, address: string, value: string): Texts {
  const given = project.givens.get(address);
  if (given && isPlace(given.origin)) {
    const edit = valueChanged(texts, given, value);
    return new Map(texts).set(edit.file, applied(edit, texts.get(edit.file)!));
  }
  const assumption = assumptionNames.find((name) => `assume/${name}` === address);
  if (assumption) return withAssumption(texts, assumption, value);
  if (address.startsWith("catalogue/"))
    throw new CallError(
      `"${address}" is the catalogue's. Give the number in the tape's file; "tapeworthy why CHECK --tape TAPE" shows where it enters.`,
    );
  const tape = /^(tapes\/[^/]+)\/(.+)$/.exec(address);
  if (tape && texts.has(`${tape[1]}.yaml`))
    throw new CallError(
      `"${address}" stands in no file yet: add "${tape[2]!.replace(".", ": ")}: ${value}" to ${tape[1]}.yaml.`,
    );
  const near = nearest(address, [...project.givens.keys(), ...assumptionNames.map((n) => `assume/${n}`)]);
  throw new CallError(
    `There is no number at "${address}".${near ? ` Did you mean "${near}"?` : ' Addresses look like "plover/nip.preload".'}`,
  );
}
/** project.yaml with one line more under `assume:`. */
function withAssumption(texts: Texts, name: string, value: string): Texts {
  const text = texts.get("project.yaml")!;
  const line = `  ${name}: ${JSON.stringify(value)}\n`;
  const block = /^assume:[^\S\n]*\n/m.exec(text);
  const next = block
    ? text.slice(0, block.index + block[0].length) + line + text.slice(block.index + block[0].length)
    : `${text}${text.endsWith("\n") ? "" : "\n"}assume:\n${line}`;
  return new Map(texts).set("project.yaml", next);
}
