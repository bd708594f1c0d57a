// npm run handbook: a page for every file of models, from the objects that the program runs and the comments beside them; docs/models is its own.
// With --check it writes and builds nothing, says what is not up to date and exits with 1.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { keepFolder } from "./keep-folder.mjs";
import { root, say, setUp } from "./setup.mjs";

const sources = join(root, "packages/core/src");
const built = join(root, "packages/core/dist");

/** Paths of the source files under packages/core/src, folder by folder. @param {string} folder @returns {string[]} */
const filesIn = (folder) =>
  readdirSync(join(sources, folder), { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = folder === "" ? entry.name : `${folder}/${entry.name}`;
      if (entry.isDirectory()) return filesIn(path);
      const isSource = path.endsWith(".ts") && !/\.(test|fixture|d)\.ts$/.test(path) && path !== "index.ts";
      return isSource ? [path] : [];
    });

/** The pages by their path under docs/models. Imported only after a build. */
export async function handbookPages() {
  const { checks } = await import("../packages/core/dist/index.js");
  const { scenes } = await import("../packages/core/dist/scene.fixture.js");
  const { handbook } = await import("../packages/report/dist/handbook/handbook.js");
  const { allRows } = await import("../validation/dist/main.js");
  const files = [];
  for (const path of filesIn("")) {
    const module = join(built, path.replace(/\.ts$/, ".js"));
    if (!existsSync(module)) continue;
    const exports = await import(pathToFileURL(module).href);
    files.push({ path, source: readFileSync(join(sources, path), "utf8"), exports });
  }
  return handbook({ files, checks, scenes, figures: allRows() });
}

/** Writes the handbook, or with `check` says what is not up to date. Returns the exit code. @param {{ check: boolean }} how */
export const writeHandbook = async ({ check }) => keepFolder("docs/models", await handbookPages(), { check });

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const args = process.argv.slice(2);
  const odd = args.find((arg) => arg !== "--check");
  const check = args.includes("--check");
  if (odd !== undefined) {
    say(`found "${odd}", expected nothing or --check`);
    process.exitCode = 2;
  } else process.exitCode = check || setUp() ? await writeHandbook({ check }) : 1;
}
