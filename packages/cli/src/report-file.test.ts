// The report as the command writes it. Needs a build.
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { exampleFolder, inNewFolder, tapeworthy } from "./cli.fixture.ts";

/** The example with one wanted pair, a ladder of two widths and no record, in a folder of its own. */
function onePair(folder: string): string {
  const project = join(folder, "shop");
  cpSync(exampleFolder, project, { recursive: true });
  rmSync(join(project, "known.yaml"));
  const file = join(project, "project.yaml");
  const wanted = "wanted:\n  plover: [sensor-8]\n";
  const text = readFileSync(file, "utf8").replace(/^wanted:\n(?: .*\n)+/m, wanted);
  writeFileSync(file, text.replace(/^ladder:.*$/m, "ladder: [sensor-8, so8-12]"));
  return project;
}

describe("check --html", () => {
  test("writes one file, whole, over an older one, that needs nothing beside it, and leaves the answer as it is", () => {
    inNewFolder((folder) => {
      const project = onePair(folder);
      const path = join(folder, "out/report.html");
      const plain = tapeworthy(["check", project, "--json"]);
      mkdirSync(join(folder, "out"));
      writeFileSync(path, "old");
      const done = tapeworthy(["check", project, "--json", "--html", path]);
      expect([done.code, done.out]).toEqual([plain.code, plain.out]);
      expect(done.err).toContain(`Report: ${path}.`);
      expect(readdirSync(join(folder, "out"))).toEqual(["report.html"]);
      const html = readFileSync(path, "utf8");
      expect(html).toMatch(/^<!doctype html>/);
      expect(html.trimEnd().endsWith("</html>")).toBe(true);
      expect(html).toContain('id="tape/plover/sensor-8"');
      expect(html.match(/src:url\("data:font\/woff2;base64,[A-Za-z0-9+/=]{4000,}"\)/g)).toHaveLength(6);
    });
  }, 360_000);
  test("a folder in place of the file is refused with the way out, and nothing is left behind", () => {
    inNewFolder((folder) => {
      const path = join(folder, "taken");
      mkdirSync(path);
      const done = tapeworthy(["check", onePair(folder), "--html", path]);
      expect(done.code).toBe(2);
      expect(done.err).toContain(`"${path}" is a folder. Name a file: --html ${path}/report.html`);
      expect(readdirSync(path)).toEqual([]);
      expect(existsSync(`${path}.html`)).toBe(false);
    });
  }, 360_000);
});
