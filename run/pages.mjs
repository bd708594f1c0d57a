// The files that hold something worked out, and how to work it out again: npm run docs writes them, tests hold them to it.
// Imported only after a build.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { jsonSchema, schemaKinds } from "../packages/project/dist/index.js";
import { withOutputs } from "./console.mjs";
import { picture } from "./picture.mjs";
import { root } from "./setup.mjs";
import { assumptionsTable, checksTable, readings, refusals } from "./tables.mjs";

/** @type {Record<string, (body: string) => string>} */
const tables = { checks: checksTable, assumptions: assumptionsTable, readings, refusals };

/** A page with its tables worked out again: what stands between the marks. @param {string} page */
const withTables = (page) =>
  page.replace(/^<!-- table: (\w+) -->\n([\s\S]*?)^<!-- end of table -->$/gm, (_, name, body) => {
    const make = tables[name];
    if (!make) throw new Error(`there is no table "${name}"`);
    return `<!-- table: ${name} -->\n${make(body)}\n<!-- end of table -->`;
  });

/** A page whose commands are run from the project's own folder. @param {string} path */
const page = (path) => ({ path, fresh: (/** @type {string} */ text) => withOutputs(withTables(text), root) });

/** A page that is walked through in an empty folder, block by block. @param {string} path */
const walk = (path) => ({
  path,
  fresh: (/** @type {string} */ text) => {
    const folder = mkdtempSync(join(tmpdir(), "tapeworthy-walk-"));
    try {
      return withOutputs(text, folder);
    } finally {
      rmSync(folder, { recursive: true });
    }
  },
});

/** @param {import("../packages/project/dist/index.js").SchemaKind} kind */
const schema = (kind) => ({
  path: `schemas/${kind}.schema.json`,
  fresh: () => formatted(`schemas/${kind}.schema.json`, `${JSON.stringify(jsonSchema(kind), null, 2)}\n`),
});
/** A text in the project's own style. @param {string} path @param {string} text */
function formatted(path, text) {
  const biome = join(root, "node_modules/@biomejs/biome/bin/biome");
  const { status, stdout, stderr } = spawnSync(process.execPath, [biome, "format", `--stdin-file-path=${path}`], {
    cwd: root,
    input: text,
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  if (status !== 0) throw new Error(stderr);
  return stdout;
}

export const firstUnit = walk("docs/first-unit.md");
/** @typedef {{ path: string, fresh: (text: string) => string }} Page */
/** @type {Page[]} */
export const pages = [
  page("README.md"),
  page("docs/checks.md"),
  page("docs/notation.md"),
  page("docs/json.md"),
  page("docs/bench.md"),
  firstUnit,
  ...schemaKinds.map(schema),
  { path: "docs/images/plover.svg", fresh: () => picture("light") },
  { path: "docs/images/plover-dark.svg", fresh: () => picture("dark") },
];

/** Text of a file from the project's folder; empty where it is not there yet. @param {string} path */
export function textOf(path) {
  try {
    return readFileSync(join(root, path), "utf8");
  } catch {
    return "";
  }
}
