// core <- project, drawing <- report <- cli, web; core <- project <- validation and speed: who may import whom, read from the import statements themselves.
// `tsc -b` does not object to an import against the arrows, so this does.
import { readdirSync, readFileSync } from "node:fs";
import { builtinModules } from "node:module";
import { dirname, relative, resolve, sep } from "node:path";
import { describe, expect, test } from "vitest";
import { importsOf, packageOf } from "./imports.mjs";
import { root } from "./setup.mjs";

/**
 * @typedef {object} Folder
 * @property {string} path
 * @property {string[]} ours packages of ours it may import
 * @property {RegExp} [outside] the only outside packages it may import; absent, those of its package.json
 * @property {boolean} node whether it may import Node's own modules
 * @property {string[]} [tests] packages of ours that its tests and fixtures may import besides
 */

/** @type {Folder[]} */
const known = [
  { path: "packages/core", ours: [], outside: /^(@stdlib\/.*|pure-rand)$/, node: false },
  {
    path: "packages/project",
    ours: ["core"],
    outside: /^(yaml|@codemirror\/state|hyparquet|hyparquet-writer)$/,
    node: false,
  },
  { path: "packages/drawing", ours: ["core"], tests: ["project"], outside: /^$/, node: false },
  { path: "packages/report", ours: ["core", "project", "drawing"], outside: /^$/, node: false },
  { path: "packages/cli", ours: ["core", "project", "drawing", "report"], node: true },
  {
    path: "packages/web",
    ours: ["core", "project", "drawing", "report"],
    outside: /^(react|react-dom|@codemirror\/[a-z-]+|@lezer\/highlight)$/,
    node: false,
  },
  { path: "validation", ours: ["core", "project"], node: true },
  { path: "speed", ours: ["core", "project"], node: true },
];

/** @param {string} path */
const read = (path) => readFileSync(resolve(root, path), "utf8");
/** @param {string} path @returns {{ dependencies?: object, devDependencies?: object }} */
const manifest = (path) => JSON.parse(read(`${path}/package.json`));
const forTests = Object.keys(manifest(".").devDependencies ?? {});

/**
 * What is wrong with the imports of one file. Tests may also use Node and the root's own packages for testing.
 * @param {Folder} folder
 * @param {string} file path from the root
 * @param {string} source
 * @param {string[]} declared dependencies of the folder's package.json
 */
function faults(folder, file, source, declared) {
  const isTest = /\.(test|fixture)\.ts$/.test(file);
  return importsOf(source).flatMap((specifier) => {
    const say = (/** @type {string} */ claim) => [`${file} imports ${specifier}: ${claim}`];
    if (specifier.startsWith("node:") || builtinModules.includes(specifier))
      return folder.node || isTest ? [] : say(`${folder.path} does without Node`);
    const name = packageOf(specifier);
    if (name === undefined) {
      const target = relative(resolve(root, folder.path), resolve(root, dirname(file), specifier));
      return target.startsWith(`src${sep}`) ? [] : say("a relative import stays in its own src");
    }
    if (isTest && forTests.includes(name)) return [];
    const ours = name.startsWith("@tapeworthy/");
    if (isTest && ours && folder.tests?.includes(name.slice("@tapeworthy/".length))) return [];
    const allowed = ours
      ? folder.ours.includes(name.slice("@tapeworthy/".length))
      : (folder.outside?.test(name) ?? true);
    if (!allowed) return say(`against the arrows of ${folder.path}`);
    return declared.includes(name) ? [] : say(`not in ${folder.path}/package.json`);
  });
}

/** @param {string} folder @returns {string[]} */
const sourcesOf = (folder) =>
  readdirSync(resolve(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) return sourcesOf(path);
    return /\.tsx?$/.test(entry.name) ? [path] : [];
  });

test("every package has its arrows written down here", () => {
  const packages = readdirSync(resolve(root, "packages")).map((name) => `packages/${name}`);
  expect(known.map(({ path }) => path).sort()).toEqual([...packages, "speed", "validation"].sort());
});

describe.each(known)("$path", (folder) => {
  const { dependencies, devDependencies } = manifest(folder.path);
  // What speed holds ours against is no part of the program.
  const declared = Object.keys({ ...dependencies, ...(folder.path === "speed" ? devDependencies : {}) });
  const sources = sourcesOf(`${folder.path}/src`);

  test("has sources to read", () => expect(sources).not.toEqual([]));
  test("imports only what its arrows allow", () => {
    expect(sources.flatMap((file) => faults(folder, file, read(file), declared))).toEqual([]);
  });
});

describe("the reader catches", () => {
  /** @param {string} path @param {string} source @param {string} [file] */
  const faultsIn = (path, source, file = "film/a.ts") => {
    const folder = known.find((one) => one.path === path);
    if (!folder) throw new Error(`no folder ${path}`);
    return faults(folder, `${path}/src/${file}`, source, Object.keys(manifest(path).dependencies ?? {}));
  };

  test.each([
    ["packages/core", 'import { parse } from "@tapeworthy/project";', "against the arrows"],
    ["packages/core", 'import type { Unit } from "@tapeworthy/project";', "against the arrows"],
    ["packages/core", "export * from '../../../project/src/index.ts';", "stays in its own src"],
    ["packages/core", 'const fs = await import("node:fs");', "does without Node"],
    ["packages/core", 'import fs from "fs";', "does without Node"],
    ["packages/core", 'import { parse } from "yaml";', "against the arrows"],
    ["packages/core", 'import betainc from "@stdlib/math-base-special-betainc";', "not in packages/core/package.json"],
    ["packages/core", 'import { test } from "vitest";', "against the arrows"],
    ["packages/project", 'import { run } from "@tapeworthy/cli";', "against the arrows"],
    ["packages/project", 'let a: typeof import("node:path");', "does without Node"],
    ["packages/cli", 'import {\n  a,\n  b,\n} from "undeclared/deep/path.js";', "not in packages/cli/package.json"],
    ["packages/cli", 'import "../../../core/dist/index.js";', "stays in its own src"],
    ["packages/drawing", 'import { readProject } from "@tapeworthy/project";', "against the arrows"],
    ["packages/drawing", 'import { scaleLinear } from "d3-scale";', "against the arrows"],
    ["packages/drawing", 'import { reportHtml } from "@tapeworthy/report";', "against the arrows"],
    ["packages/report", 'import { run } from "@tapeworthy/cli";', "against the arrows"],
    ["packages/report", 'import { readFileSync } from "node:fs";', "does without Node"],
    ["packages/web", 'import { run } from "@tapeworthy/cli";', "against the arrows"],
    ["packages/web", 'import { readFileSync } from "node:fs";', "does without Node"],
    ["speed", 'import { run } from "@tapeworthy/cli";', "against the arrows"],
  ])("in %s: %s", (path, source, claim) => {
    expect(faultsIn(path, source)).toEqual([expect.stringContaining(claim)]);
  });

  test("nothing in imports that follow the arrows", () => {
    const source = `
      // import "yaml";  /* from "yaml" */
      import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
      import erfcinv from "@stdlib/math-base-special-erfcinv";
      import { angle } from "./angle.ts";
      import { W } from "../tape/width.ts";
      const text = 'import "yaml"' + \`import "yaml"\` + "/*";
    `;
    expect(faultsIn("packages/core", source)).toEqual([]);
  });
  test("nothing in a test that reads a file with Node", () => {
    const source =
      'import { readFileSync } from "node:fs"; import fc from "fast-check"; import { test } from "vitest";';
    expect(faultsIn("packages/core", source, "film/a.test.ts")).toEqual([]);
  });
  test("nothing in a test of drawing that reads an example project", () => {
    expect(faultsIn("packages/drawing", 'import { readProject } from "@tapeworthy/project";', "a.fixture.ts")).toEqual(
      [],
    );
  });
  test("a test that imports against the arrows", () => {
    expect(faultsIn("packages/core", 'import "@tapeworthy/project";', "film/a.test.ts")).toHaveLength(1);
  });
});

test.each([
  ["an import after a quote in a regular expression", 'const quote = /["\'`]/; import "a";', ["a"]],
  ["an import after a division", 'const half = b / 2; const c = 1 / d; import "a";', ["a"]],
  ["an import after a comment that never closes in a string", 'const open = "/*"; import "a";', ["a"]],
  [
    "an export and an import in a row",
    'export { b } from "./b.ts"; import c, { type D } from "c/d";',
    ["./b.ts", "c/d"],
  ],
])("the reader finds %s", (_, source, imports) => {
  expect(importsOf(source)).toEqual(imports);
});
