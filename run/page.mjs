// The page as one build: made again where a source of it is another than it was made from. Needs the libraries, not the compiler's output.
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const folders = ["core", "project", "drawing", "report", "web"].map((name) => `packages/${name}/src`);
const files = [
  "packages/web/index.html",
  "packages/web/vite.config.ts",
  "packages/web/package.json",
  "package-lock.json",
];
const stamp = "packages/web/dist/.made-from";

/** What the page is made from, as one hash of names, sizes and times. @param {string} root */
export function madeFrom(root) {
  const hash = createHash("sha256");
  /** @param {string} path */
  const add = (path) => {
    const { size, mtimeMs } = statSync(join(root, path));
    hash.update(`${path} ${size} ${mtimeMs}\n`);
  };
  /** @param {string} folder */
  const walk = (folder) => {
    for (const entry of readdirSync(join(root, folder), { withFileTypes: true }).sort((a, b) =>
      a.name < b.name ? -1 : 1,
    )) {
      const path = `${folder}/${entry.name}`;
      if (entry.isDirectory()) walk(path);
      else if (!/\.(test|fixture)\.tsx?$/.test(entry.name)) add(path);
    }
  };
  for (const folder of folders) walk(folder);
  for (const file of files) add(file);
  return hash.digest("hex");
}

/**
 * Builds the page unless it is up to date; `build` does it and tells whether it did.
 * @param {string} root
 * @param {() => boolean} build
 */
export function ensurePage(root, build) {
  const now = madeFrom(root);
  if (existsSync(join(root, stamp)) && readFileSync(join(root, stamp), "utf8") === now) return true;
  if (!build()) return false;
  writeFileSync(join(root, stamp), now);
  return true;
}
