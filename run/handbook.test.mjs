// The handbook and the walls stay true: pages, words, numbers and pictures are those of the program. Needs a build.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { root } from "./setup.mjs";

/** @param {string} program @param {string[]} args */
function run(program, ...args) {
  const { status, stderr } = spawnSync(process.execPath, [`run/${program}.mjs`, ...args], {
    cwd: root,
    encoding: "utf8",
  });
  return { status, stderr };
}
const upToDate = { status: 0, stderr: "" };

test("npm run handbook would change nothing", () => expect(run("handbook", "--check")).toEqual(upToDate), 360_000);
test("npm run walls would change nothing", () => expect(run("walls", "--check")).toEqual(upToDate), 360_000);
test.each(["handbook", "walls"])("%s refuses a word it does not know", (program) => {
  expect(run(program, "--now")).toEqual({ status: 2, stderr: 'found "--now", expected nothing or --check\n' });
});

const sources = join(root, "packages/core/src");
const models = join(root, "docs/models");
const modelFiles = readdirSync(sources, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .flatMap(({ name: folder }) =>
    readdirSync(join(sources, folder))
      .filter((name) => name.endsWith(".ts") && !/\.(test|fixture)\.ts$/.test(name))
      .map((name) => ({ path: `${folder}/${name}`, source: readFileSync(join(sources, folder, name), "utf8") })),
  )
  .filter(({ source }) => /model\(\{|: Check = \{/.test(source) && /\bid: ["`]/.test(source));
const textOf = (/** @type {string} */ path) => readFileSync(join(root, path), "utf8");

describe("every file that writes a model or a check has its page, which names them all", () => {
  test("and there are many", () => expect(modelFiles.length).toBeGreaterThan(60));
  test.each(modelFiles.map(({ path, source }) => /** @type {const} */ ([path, source])))("%s", (path, source) => {
    const page = join(models, path.replace(/\.ts$/, ".md"));
    expect(existsSync(page)).toBe(true);
    const text = readFileSync(page, "utf8");
    for (const [, id] of source.matchAll(/\{\n\s+id: "([a-z][\w.-]+)"/g)) expect(text).toContain(`\`${id}\``);
  });
});
test("the contents page leads to every page, and to nothing else", () => {
  const contents = textOf("docs/models/README.md");
  const linked = new Set([...contents.matchAll(/\]\(([a-z][\w/-]*\.md)\)/g)].map(([, path = ""]) => path));
  const pages = readdirSync(models, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap(({ name }) => readdirSync(join(models, name)).map((file) => `${name}/${file}`));
  expect([...linked].sort()).toEqual(pages.sort());
});
test("no page shows a hole where a word or a number should stand", () => {
  const odd = readdirSync(models, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap(({ name }) => readdirSync(join(models, name)).map((file) => `docs/models/${name}/${file}`))
    .concat("docs/models/README.md", "docs/walls.md")
    .filter((path) => /^(?:\||#|- |\*An).*(?:\bundefined\b|\bNaN\b|\[object)/m.test(textOf(path)));
  expect(odd).toEqual([]);
});
test("every wall has its pictures, light and dark, and every picture a wall", () => {
  const page = textOf("docs/walls.md");
  const shown = [...page.matchAll(/images\/walls\/([\w-]+\.svg)/g)].map(([, name]) => name).sort();
  expect(shown.length).toBeGreaterThan(18);
  expect(readdirSync(join(root, "docs/images/walls")).sort()).toEqual(shown);
  expect(page.match(/^## /gm)?.length).toBeGreaterThanOrEqual(10);
});
test("a wall's words carry numbers, and one of them marks where its curve crosses a bound", () => {
  for (const part of textOf("docs/walls.md").split(/^## /m).slice(1)) {
    const [title = ""] = part.split("\n");
    const turns = [...part.matchAll(/crosses a bound at ([^."]*(?:\.\d+[^."]*)*)\./g)].flatMap(([, list = ""]) =>
      list.split(" and "),
    );
    expect(turns.length, title).toBeGreaterThan(0);
    const words = part
      .split("\n")
      .filter((line) => !line.startsWith("<picture>"))
      .join("\n");
    expect(
      turns.some((turn) => words.includes(turn)),
      `${title}: ${turns.join(", ")}`,
    ).toBe(true);
  }
});
