// npm run walls: the page of the walls and its pictures, each a curve over an invented unit of the tests; docs/images/walls is its own.
// With --check it writes and builds nothing, says what is not up to date and exits with 1.
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { difference, keepFolder } from "./keep-folder.mjs";
import { root, say, setUp } from "./setup.mjs";

const path = "docs/walls.md";

/** Page of the handbook that speaks of a check, from docs, as its contents page has it. @returns {(check: string) => string | undefined} */
function pagesOfChecks() {
  const contents = readFileSync(join(root, "docs/models/README.md"), "utf8");
  const pages = new Map(
    [...contents.matchAll(/^\| \[`([\w.-]+)`\]\(([\w/.-]+)\)/gm)].map(([, id = "", page = ""]) => [
      id,
      `models/${page}`,
    ]),
  );
  return (check) => pages.get(check);
}

/** The page and its pictures. Imported only after a build. */
export async function wallFiles() {
  const { checkNamed } = await import("../packages/core/dist/index.js");
  const invented = await import("../packages/core/dist/scene.fixture.js");
  const { shownWalls, wallPictures, walls } = await import("../packages/report/dist/walls/walls.js");
  const { wallsPage } = await import("../packages/report/dist/walls/walls-page.js");
  const shown = shownWalls(walls(invented), checkNamed);
  return { page: wallsPage(shown, pagesOfChecks()), pictures: wallPictures(shown) };
}

/** Writes them, or with `check` says what is not up to date. Returns the exit code. @param {{ check: boolean }} how */
export async function writeWalls({ check }) {
  const { page, pictures } = await wallFiles();
  const code = keepFolder("docs/images/walls", pictures, { check });
  const file = join(root, path);
  const before = existsSync(file) ? readFileSync(file, "utf8") : "";
  if (before === page) return code;
  if (check) say(`${path} is not up to date, ${difference(before, page)}`);
  else {
    writeFileSync(file, page);
    say(`${path} written`);
  }
  return check ? 1 : code;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const args = process.argv.slice(2);
  const odd = args.find((arg) => arg !== "--check");
  const check = args.includes("--check");
  if (odd !== undefined) {
    say(`found "${odd}", expected nothing or --check`);
    process.exitCode = 2;
  } else process.exitCode = check || setUp() ? await writeWalls({ check }) : 1;
}
