import { spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { exampleFolder, inNewFolder } from "./cli.fixture.ts";
import { readFolder, writeWhole } from "./folder.ts";

test("a project folder gives its YAML files by path and leaves everything else alone", () => {
  inNewFolder((folder) => {
    mkdirSync(join(folder, "units/deeper"), { recursive: true });
    writeFileSync(join(folder, "project.yaml"), "format: 1\n");
    writeFileSync(join(folder, "units/a.yaml"), "x");
    writeFileSync(join(folder, "units/a.yaml~"), "x");
    writeFileSync(join(folder, "units/deeper/b.yaml"), "x");
    writeFileSync(join(folder, "notes.md"), "x");
    expect([...readFolder(folder).keys()]).toEqual(["project.yaml", "units/a.yaml"]);
  });
});
test("the example folder is read whole", () => {
  expect([...readFolder(exampleFolder).keys()].filter((p) => p.startsWith("tapes/"))).toHaveLength(12);
});
test("a folder that is not there is said so by name", () => {
  expect(() => readFolder("no/such/folder")).toThrow('There is no folder "no/such/folder".');
});
test("writing leaves no temporary file and the whole text", () => {
  inNewFolder((folder) => {
    const path = join(folder, "deep/file.yaml");
    writeWhole(path, "one\n");
    writeWhole(path, "two\n");
    expect(readFileSync(path, "utf8")).toBe("two\n");
    expect(readdirSync(join(folder, "deep"))).toEqual(["file.yaml"]);
  });
});
test("a process killed while it writes leaves a whole text, old or new", async () => {
  const built = fileURLToPath(new URL("../dist/folder.js", import.meta.url));
  for (let round = 0; round < 4; round++) {
    await new Promise<void>((resolve, reject) => {
      const folder = mkdtempSync(join(tmpdir(), "tapeworthy-"));
      const path = join(folder, "file.yaml");
      const long = 400_000;
      writeWhole(path, "a".repeat(long));
      const child = spawn(process.execPath, [
        "--input-type=module",
        "-e",
        `import { writeWhole } from ${JSON.stringify(`file://${built}`)}; for (let i = 0; ; i++) writeWhole(${JSON.stringify(path)}, (i % 2 ? "b" : "a").repeat(${long}));`,
      ]);
      setTimeout(() => child.kill("SIGKILL"), 250 + 40 * round);
      child.on("exit", () => {
        try {
          expect(existsSync(path)).toBe(true);
          expect(readFileSync(path, "utf8")).toMatch(/^(a{400000}|b{400000})$/);
          resolve();
        } catch (e) {
          reject(e as Error);
        } finally {
          rmSync(folder, { recursive: true, force: true });
        }
      });
    });
  }
});
