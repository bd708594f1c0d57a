// The pages stay true: outputs, tables and schemas are those of the program, links lead somewhere. Needs a build.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { describe, expect, test } from "vitest";
import { pages as written } from "./pages.mjs";
import { root } from "./setup.mjs";

/** @param {string[]} paths */
function check(...paths) {
  const { status, stderr } = spawnSync(process.execPath, ["run/docs.mjs", "--check", ...paths], {
    cwd: root,
    encoding: "utf8",
  });
  return { status, stderr };
}
const upToDate = { status: 0, stderr: "" };

describe("npm run docs would change nothing in", () => {
  test("README.md", () => expect(check("README.md")).toEqual(upToDate), 720_000);
  test("docs/first-unit.md", () => expect(check("docs/first-unit.md")).toEqual(upToDate), 720_000);
  // Pictures of the example cost a check of all of it each; what draws them is held in packages/drawing and packages/report.
  const others = written
    .map(({ path }) => path)
    .filter((path) => !["README.md", "docs/first-unit.md"].includes(path) && !path.endsWith(".svg"));
  test.each(others)("%s", (path) => expect(check(path)).toEqual(upToDate), 180_000);
});
test("a page that nobody works out is refused by name", () => {
  const { status, stderr } = check("docs/nothing.md");
  expect(status).toBe(2);
  expect(stderr).toMatch(/^found "docs\/nothing\.md", expected one of README\.md, .*plover-dark\.svg\n$/);
});

/** @param {string} folder @returns {string[]} */
const pagesIn = (folder) =>
  readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory())
      return ["node_modules", "dist", ".git", "coverage-report"].includes(entry.name) ? [] : pagesIn(path);
    return entry.name.endsWith(".md") ? [path] : [];
  });
const pages = pagesIn(".").map((path) => ({ path, text: readFileSync(join(root, path), "utf8") }));
/** The headings of a page as links name them. @param {string} text */
const anchorsOf = (text) =>
  [...text.matchAll(/^#+ (.+)$/gm)].map(([, title = ""]) =>
    title
      .toLowerCase()
      .replace(/[^\w\s-]/g, "")
      .trim()
      .replace(/\s/g, "-"),
  );

test("every link between pages leads to a file, and to a heading where it names one", () => {
  const broken = pages.flatMap(({ path, text }) =>
    [...text.matchAll(/\]\(([^)\s]+)\)/g)].flatMap(([, link = ""]) => {
      const [file = "", anchor] = link.split("#");
      const target = file === "" ? join(root, path) : resolve(root, dirname(path), file);
      if (!existsSync(target)) return [`${path}: ${link}`];
      const there = anchor === undefined || anchorsOf(readFileSync(target, "utf8")).includes(anchor);
      return there ? [] : [`${path}: ${link} has no such heading`];
    }),
  );
  expect(broken).toEqual([]);
});
test("every source file that a contents page names is there", () => {
  const missing = pages
    .filter(({ path }) => path.endsWith("README.md"))
    .flatMap(({ path, text }) =>
      [...text.matchAll(/`((?:[\w-]+\/)*[\w.-]+\.(?:ts|mjs|py))`/g)].flatMap(([, file = ""]) =>
        [dirname(path), "."].some((folder) => existsSync(join(root, folder, file))) ? [] : [`${path}: ${file}`],
      ),
    );
  expect(missing).toEqual([]);
});
test("every folder of sources has a contents page", () => {
  const folders = [
    ...readdirSync(join(root, "packages")).map((name) => `packages/${name}`),
    ...readdirSync(join(root, "packages/core/src"), { withFileTypes: true }).flatMap((e) =>
      e.isDirectory() ? [`packages/core/src/${e.name}`] : [],
    ),
    "validation",
    "speed",
    "examples",
  ];
  expect(folders.filter((folder) => !existsSync(join(root, folder, "README.md")))).toEqual([]);
});
test("the list of decisions is complete, each under its own title", () => {
  const contents = pages.find(({ path }) => path === join("docs", "README.md"))?.text ?? "";
  const decisions = pages.filter(({ path }) => relative("docs/decisions", path).match(/^\d{4}-/));
  const wanted = decisions
    .sort((a, b) => (a.path < b.path ? -1 : 1))
    .map(({ path, text }) => {
      const [, number = "", title = ""] = /^# (\d+) (.+)$/m.exec(text) ?? [];
      return `${number}. [${title}](${relative("docs", path)})`;
    });
  expect(contents.split("\n").filter((line) => /^\d+\. \[/.test(line))).toEqual(wanted);
});
test("every decision says what it costs and what would make us reconsider, on one screen", () => {
  const odd = pages
    .filter(({ path }) => path.includes("decisions"))
    .filter(
      ({ text }) =>
        !["**Context.**", "**What we do.**", "**What it costs.**", "**What would make us reconsider.**"].every((part) =>
          text.includes(part),
        ) || text.length > 3200,
    );
  expect(odd.map(({ path }) => path)).toEqual([]);
});
