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
      expect(readFileSync(join(mine, path), "utf8")).toBe(readFileSync(join(exampleFolder, path), "utf8"));
    expect(load(readFolder(mine)).units.size).toBe(2);
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
