// What docs/json.md says of an answer's fields, and answers held against it.
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import { exampleFolder, tapeworthy } from "./cli.fixture.ts";

export const root = fileURLToPath(new URL("../../..", import.meta.url));
const page = readFileSync(join(root, "docs/json.md"), "utf8");

/** One field as the page documents it. */
interface Field {
  readonly name: string;
  readonly type: string;
  readonly always: boolean;
  readonly meaning: string;
}
/** The tables below one heading of the page: fields by the path of the object that holds them. A table may stand for several paths. */
export function documented(heading: string): Map<string, Field[]> {
  const section = page.split(/^## /m).find((part) => part.startsWith(heading));
  if (!section) throw new Error(`docs/json.md has no section "${heading}"`);
  const parts = section.split(/^### /m).slice(1);
  return new Map(
    parts.flatMap((part) => {
      const [title = ""] = part.split("\n");
      // What stands after that is said of other objects, in words.
      const [told = ""] = title.split(/, (?:and every|likewise) /);
      const all = [...told.matchAll(/`([^`]+)`/g)].map(([, path = ""]) => path);
      const paths = title === "the answer" ? [""] : all;
      const fields = [...part.matchAll(/^\| `([^`]+)` \| (.+?) \| (yes|may) \| (.+) \|$/gm)].map(
        ([, name = "", type = "", there, meaning = ""]): Field => ({ name, type, always: there === "yes", meaning }),
      );
      return paths.map((path) => [path, fields] as const);
    }),
  );
}

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
export type Group = { readonly [key: string]: Json };
export const isGroup = (v: Json): v is Group => typeof v === "object" && v !== null && !Array.isArray(v);

/** The objects at a path such as "units[].tapes[]"; "*" stands for every member. A rests[] counts with what it explains. */
export function objectsAt(answer: Json, path: string): Group[] {
  const steps = path.split(".").filter((step) => step !== "");
  const found = steps.reduce<readonly Json[]>(
    (now, step) =>
      now.flatMap((v): readonly Json[] => {
        if (step === "[]") return v as readonly Json[];
        if (!isGroup(v)) return [];
        if (step === "*") return Object.values(v).flatMap(withRests);
        const inner = v[step.replace("[]", "")];
        return inner === undefined ? [] : step.endsWith("[]") ? (inner as readonly Json[]) : [inner];
      }),
    [answer],
  );
  return found.filter(isGroup);
}
const withRests = (v: Json): readonly Json[] =>
  isGroup(v) ? [v, ...(Array.isArray(v.rests) ? v.rests.flatMap(withRests) : [])] : [v];

/** Whether a value is what the page's type column says. */
function fits(value: Json, type: string): boolean {
  if (type.endsWith(" or null")) return value === null || fits(value, type.slice(0, -" or null".length));
  if (type.startsWith("list of "))
    return Array.isArray(value) && value.every((v) => fits(v, type.slice("list of ".length)));
  if (type === "object") return isGroup(value);
  if (["string", "number", "boolean"].includes(type)) return typeof value === type;
  const words = [...type.matchAll(/`([^`]+)`/g)].map(([, word]) => word);
  if (words.length === 0) throw new Error(`docs/json.md: "${type}" is no type`);
  return words.includes(value as string);
}

/** What an answer has and the page does not say, or the other way round. `seen` collects the fields met. */
export function differences(
  answer: Json,
  fields: ReadonlyMap<string, readonly Field[]>,
  seen: Set<string>,
  open = false,
): string[] {
  return [...fields].flatMap(([path, list]) =>
    objectsAt(answer, path).flatMap((object) => {
      const at = (name: string) => `${path === "" ? "" : `${path}.`}${name}`;
      const undocumented = open ? [] : Object.keys(object).filter((key) => !list.some((f) => f.name === key));
      return [
        ...undocumented.map((key) => `${at(key)} is not documented`),
        ...list.flatMap(({ name, type, always }) => {
          if (!Object.hasOwn(object, name)) return always ? [`${at(name)} is missing`] : [];
          seen.add(at(name));
          return fits(object[name]!, type)
            ? []
            : [`${at(name)} is ${JSON.stringify(object[name])}, documented as ${type}`];
        }),
      ];
    }),
  );
}
export const allFields = (fields: ReadonlyMap<string, readonly Field[]>): string[] =>
  [...fields].flatMap(([path, list]) => list.map(({ name }) => `${path === "" ? "" : `${path}.`}${name}`));

/** A small project in a folder: the example's first unit on some of its tapes. */
export function project(folder: string, tapes: readonly string[], known = ""): void {
  for (const inner of ["units", "tapes"]) mkdirSync(join(folder, inner));
  const copy = (path: string) => writeFileSync(join(folder, path), readFileSync(join(exampleFolder, path)));
  copy("units/plover.yaml");
  for (const tape of tapes) copy(`tapes/${tape}.yaml`);
  writeFileSync(join(folder, "project.yaml"), `format: 1\nproject: small\nwanted: {plover: [${tapes.join(", ")}]}\n`);
  if (known !== "") writeFileSync(join(folder, "known.yaml"), `format: 1\nknown: ${known}\n`);
}
/** Trials in that folder: a reading that waits, and a trial of a check that was foretold, agreed and is taken. */
export function bench(folder: string): void {
  const trial = (name: string, lines: readonly string[]) =>
    writeFileSync(
      join(folder, `bench/${name}.yaml`),
      `format: 1\ntrial: ${name}\nunit: plover\ntape: coil-12\n${lines.join("\n")}\n`,
    );
  mkdirSync(join(folder, "bench"));
  trial("T-01", ["question: tapes/coil-12/T", "readings: [{reel: A, value: 0.26 mm}]"]);
  trial("T-02", [
    "question: nip.slips",
    "date: 2026-03-04",
    "counts: [{unit: 1, reel: A, indexes: 500, misfeeds: 0}, {unit: 2, reel: B, indexes: 500, misfeeds: 0}]",
  ]);
  const rests = "catalogue/film break: a guess, plover/nip.friction.1: a guess, plover/nip.friction.2: a guess";
  const head =
    "{frozen: L-01, trial: T-02, question: nip.slips, unit: plover, tape: coil-12, fails: [0.02, 0.001, 0.3]";
  const tail = `share: 0.7, date: 2026-03-01, seed: 1, version: 0.1.0, sha: ${"0".repeat(64)}`;
  const score = "{scored: L-01, trial: T-02, pieces: 2, failed: 0}";
  writeFileSync(
    join(folder, "ledger.yaml"),
    `format: 1\nledger: [${head}, ${tail}, rests on: {${rests}, plover/nip.preload: 4.7 ±0.5 N}}, ${score}, {taken: T-02}]\n`,
  );
}
export const parsed = (text: string): Json => JSON.parse(text) as Json;
export const called = (...args: readonly string[]): Json => {
  const { out, err } = tapeworthy([...args, "--json"]);
  if (out === "") throw new Error(err);
  return parsed(out);
};
/** Fields of objects that have no table of their own and are not named where the object is described, nor elsewhere on the page. */
function untold(answer: Json, fields: ReadonlyMap<string, readonly Field[]>): string[] {
  return [...fields].flatMap(([path, list]) =>
    list.flatMap(({ name, type, meaning }) => {
      const at = `${path === "" ? "" : `${path}.`}${name}${type.startsWith("list of ") ? "[]" : ""}`;
      if (!type.includes("object") || [at, `${at}.*`, `${path}.*`].some((told) => fields.has(told))) return [];
      if (/as in `|fields of `|for every address/.test(meaning)) return [];
      const told = [...meaning.matchAll(/`([^`]+)`/g)].map(([, word]) => word);
      const keys = objectsAt(answer, at).flatMap((object) => Object.keys(object));
      return [...new Set(keys)].filter((key) => !told.includes(key)).map((key) => `${at}.${key} is told nowhere`);
    }),
  );
}
/** Every field of the answers is documented, and every field documented is in one of them. */
export function bothWays(heading: string, answers: readonly Json[]): void {
  const fields = documented(heading);
  const seen = new Set<string>();
  expect(answers.flatMap((answer) => differences(answer, fields, seen))).toEqual([]);
  expect(allFields(fields).filter((name) => !seen.has(name))).toEqual([]);
  expect(answers.flatMap((answer) => untold(answer, fields))).toEqual([]);
}
export function edited(folder: string, path: string, edit: (text: string) => string): void {
  const file = join(folder, path);
  const before = readFileSync(file, "utf8");
  const after = edit(before);
  if (after === before) throw new Error(`${path} is as it was`);
  writeFileSync(file, after);
}
/** The example with its trials and its ledger, a pair or two of its units wanted, and without known units: a call takes seconds. */
export function fewPairs(folder: string, wanted: string): void {
  cpSync(exampleFolder, folder, {
    recursive: true,
    filter: (path) => !/[\\/](known\.yaml|\.tapeworthy)$/.test(path),
  });
  edited(folder, "project.yaml", (text) =>
    text.replace(/^wanted:\n( {2}.*\n)+/m, `wanted: ${wanted}\n`).replace(/^ladder:.*\n/m, ""),
  );
}
