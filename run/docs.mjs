// npm run docs: works out again what the pages show of the program - outputs of commands, tables, schemas, the handbook, the walls - and writes it.
// With --check it writes and builds nothing, says what is not up to date and exits with 1. Names of files limit it to those.
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { difference } from "./keep-folder.mjs";
import { root, say, setUp } from "./setup.mjs";

/** @param {string[]} args */
async function docs(args) {
  // A check leaves the build alone: tests run it beside others that use it.
  if (!args.includes("--check") && !setUp()) return 1;
  const { pages, textOf } = await import("./pages.mjs");
  const wanted = args.filter((arg) => arg !== "--check");
  const odd = wanted.find((path) => !pages.some((page) => page.path === path));
  if (odd) {
    say(`found "${odd}", expected one of ${pages.map((page) => page.path).join(", ")}`);
    return 2;
  }
  let stale = 0;
  for (const { path, fresh } of pages.filter((page) => wanted.length === 0 || wanted.includes(page.path))) {
    const before = textOf(path);
    const after = fresh(before);
    if (after === before) continue;
    stale++;
    if (args.includes("--check")) say(`${path} is not up to date, ${difference(before, after)}`);
    else {
      mkdirSync(dirname(join(root, path)), { recursive: true });
      writeFileSync(join(root, path), after);
      say(`${path} written`);
    }
  }
  const code = args.includes("--check") && stale > 0 ? 1 : 0;
  if (wanted.length > 0) return code;
  // The handbook first: the walls lead to its pages.
  const { writeHandbook } = await import("./handbook.mjs");
  const { writeWalls } = await import("./walls.mjs");
  const how = { check: args.includes("--check") };
  return Math.max(code, await writeHandbook(how), await writeWalls(how));
}

process.exitCode = await docs(process.argv.slice(2));
