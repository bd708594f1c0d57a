import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("../../..", import.meta.url));
const page = readFileSync(`${root}/docs/first-unit.md`, "utf8");

/** The fenced blocks of the page, by what stands behind the fence. */
const blocks = [...page.matchAll(/^```(\S*).*\n([\s\S]*?)^```$/gm)].map(([, kind = "", body = ""]) => ({ kind, body }));

// That its commands give what is printed there is held by run/docs.test.mjs, with all pages.
test("the page goes from start over check and why to a tape that feeds", () => {
  const commands = blocks.flatMap(({ kind, body }) =>
    kind === "console" ? [...body.matchAll(/^\$ npx tapeworthy (\w+)/gm)].map((m) => m[1]) : [],
  );
  expect(commands).toEqual(["start", "check", "check", "check", "why", "check", "check"]);
  const verdicts = [...page.matchAll(/^ {2}relay-16 +16 +(\w+)/gm)].map((m) => m[1]);
  expect(verdicts).toEqual(["stops", "depends", "feeds"]);
});

test("nothing on the page is a command that no test runs, but for the three lines of the clone", () => {
  expect(
    blocks
      .filter(({ kind }) => !["console", "edit"].includes(kind))
      .map(({ kind, body }) => [kind, body.split("\n").at(-2)]),
  ).toEqual([["sh", "npm start"]]);
});
