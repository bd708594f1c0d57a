import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { exampleFolder, inNewFolder } from "./cli.fixture.ts";
import { readFolder } from "./folder.ts";
import { load } from "./load.ts";
import { exampleNames, startProject } from "./start-project.ts";

test("a new project holds the example's files, byte for byte, and reads without errors", () => {
  inNewFolder((folder) => {
    const mine = join(folder, "mine");
    const written = startProject(mine, "saltgrass");
    expect(written).toContain("units/plover.yaml");
    for (const path of written)
      expect(readFileSync(join(mine, path)).equals(readFileSync(join(exampleFolder, path))), path).toBe(true);
    const { units, trials } = load(readFolder(mine));
    expect(units.size).toBe(2);
    // What a trial says of its logs can be looked at: their rows are there.
    const raw = [...trials.values()].flatMap(({ runs }) => runs.map((run) => run.raw));
    expect(raw.length).toBeGreaterThan(0);
    for (const path of raw) expect(written).toContain(path);
  });
});
test("a name that is taken is refused and nothing is written", () => {
  inNewFolder((folder) => {
    expect(() => startProject(folder, "saltgrass")).toThrow("is there already; nothing was written.");
    expect(existsSync(join(folder, "project.yaml"))).toBe(false);
  });
});
test("an unknown example is refused with the one that was meant", () => {
  expect(exampleNames()).toContain("saltgrass");
  expect(() => startProject("x", "saltgras")).toThrow('There is no example "saltgras". Did you mean "saltgrass"?');
});
