// A folder whose files are all worked out: written anew, what no longer belongs taken away, or held to what it should be.
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { root, say } from "./setup.mjs";

/** Paths of the files in a folder, down to the last. @param {string} folder @returns {string[]} */
function filesIn(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? filesIn(join(folder, entry.name)).map((path) => `${entry.name}/${path}`) : [entry.name],
  );
}

/**
 * Makes a folder hold these files and no others, or with `check` says where it does not. Returns the exit code.
 * @param {string} folder
 * @param {ReadonlyMap<string, string>} files
 * @param {{ check: boolean }} how
 */
export function keepFolder(folder, files, { check }) {
  const at = join(root, folder);
  let stale = 0;
  for (const [path, text] of files) {
    const file = join(at, path);
    const before = existsSync(file) ? readFileSync(file, "utf8") : undefined;
    if (before === text) continue;
    stale++;
    if (check)
      say(
        `${folder}/${path} ${before === undefined ? "is missing" : `is not up to date, ${difference(before, text)}`}`,
      );
    else {
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, text);
    }
  }
  const odd = filesIn(at).filter((path) => !files.has(path));
  for (const path of odd) {
    if (check) say(`${folder}/${path} belongs to nothing`);
    else rmSync(join(at, path));
  }
  if (!check && stale + odd.length > 0)
    say(`${folder}: ${stale} of ${files.size} files written, ${odd.length} taken away`);
  return check && stale + odd.length > 0 ? 1 : 0;
}

/** First lines in which two texts differ. @param {string} before @param {string} after */
export function difference(before, after) {
  const [old, now] = [before.split("\n"), after.split("\n")];
  const at = now.findIndex((line, i) => line !== old[i]);
  const line = at < 0 ? now.length : at;
  return `line ${line + 1}\n  stands: ${old[line] ?? "(the end)"}\n  should: ${now[line] ?? "(the end)"}`;
}
