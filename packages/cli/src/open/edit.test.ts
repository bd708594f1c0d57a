import { readFileSync } from "node:fs";
import { isProjectPath } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
import { exampleRaw, exampleTexts } from "../start-project.ts";
import { first, served, sha256, until, Visitor, wren } from "./open.fixture.ts";

const twenty = first.replace("two: 2", "two: 20");

describe("the state", () => {
  // FIPS 180-4, the example of one block. [memory]
  test("names a text by its SHA-256 in hexadecimal digits", async () => {
    await served(
      async ({ page }) => {
        expect((await page.state()).files[1]!.hash).toBe(
          "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        );
      },
      { files: { "project.yaml": "format: 1\n", "units/abc.yaml": "abc" } },
    );
  });
  test("holds every text of the project with version and hash, and nothing else of the folder", async () => {
    await served(
      async ({ page, folder }) => {
        folder.write(".tapeworthy/notes.yaml", "x");
        expect(await page.state()).toEqual({
          project: folder.path.replace(/^.*\//, ""),
          files: [
            { file: "project.yaml", version: 1, hash: sha256("format: 1\n"), text: "format: 1\n", written: true },
            { file: "units/a.yaml", version: 1, hash: sha256("é: 1\r\n"), text: "é: 1\r\n", written: true },
          ],
          examples: ["saltgrass"],
          offered: [],
          trouble: [],
          history: { undo: 0, redo: 0 },
          seed: 1,
          event: expect.stringMatching(/^[0-9a-f]{12}-\d+$/),
        });
      },
      {
        files: {
          "project.yaml": "format: 1\n",
          "units/a.yaml": "é: 1\r\n",
          "notes.md": "x",
          "units/deeper/b.yaml": "x",
        },
      },
    );
  });
});

describe("an edit", () => {
  test("of a gesture that is done is answered with the change and stands in the file", async () => {
    await served(async ({ page, folder }) => {
      const { status, json } = await page.edit(first, twenty, { id: "1" });
      expect([status, json]).toEqual([
        200,
        {
          changes: [
            {
              file: wren,
              version: 2,
              base: sha256(first),
              hash: sha256(twenty),
              there: true,
              changes: [7, [7, "two: 20", ""], 17],
              by: "edit",
              gesture: "g",
              id: "1",
              written: true,
            },
          ],
          history: { undo: 1, redo: 0 },
        },
      ]);
      expect(folder.read()).toBe(twenty);
    });
  });
  test("of a gesture that goes on is in the state and in the journal, and not in the file", async () => {
    await served(async ({ page, folder }) => {
      const { json } = await page.edit(first, twenty, { done: false });
      expect(json.changes[0].written).toBe(false);
      expect(await page.text()).toBe(twenty);
      expect(folder.read()).toBe(first);
      expect(folder.read(".tapeworthy/journal")).toContain(`"hash":"${sha256(twenty)}"`);
      await page.post("/edit", {
        file: wren,
        base: sha256(twenty),
        changes: [twenty.length],
        gesture: "g",
        done: true,
      });
      expect(folder.read()).toBe(twenty);
    });
  });
  test("of a gesture that nobody goes on with is written after a while", async () => {
    await served(
      async ({ page, folder }) => {
        await page.edit(first, twenty, { done: false });
        await until(() => expect(folder.read()).toBe(twenty));
      },
      { patience: { settle: 20, doubt: 100, look: 10_000, idle: 60 } },
    );
  });
  test("of a gesture that goes on keeps its file from being written, whatever ends elsewhere", async () => {
    await served(async ({ page, folder, server }) => {
      await page.edit(first, twenty, { gesture: "drag", done: false });
      await page.edit("a: 1\n", "a: 2\n", { gesture: "other", file: "tapes/a-8.yaml" });
      server.look();
      expect([folder.read(), folder.read("tapes/a-8.yaml")]).toEqual([first, "a: 2\n"]);
    });
  });
  test("made for an older text goes to its line; of the same line is refused with both texts", async () => {
    await served(async ({ page, folder }) => {
      await page.edit(first, `# new\n${first}`);
      const late = await page.edit(first, twenty);
      expect([late.status, folder.read()]).toEqual([200, `# new\n${twenty}`]);
      const clash = await page.edit(first, first.replace("two: 2", "two: 3"));
      expect([clash.status, clash.json]).toEqual([
        409,
        {
          code: "conflict",
          words: "units/wren.yaml has changed in line 2 meanwhile.",
          file: wren,
          yours: first.replace("two: 2", "two: 3"),
          theirs: { text: `# new\n${twenty}`, version: 3, hash: sha256(`# new\n${twenty}`) },
        },
      ]);
      expect(folder.read()).toBe(`# new\n${twenty}`);
    });
  });
  test("sent twice under one id is taken once", async () => {
    await served(async ({ page, folder }) => {
      const one = await page.edit(first, twenty, { id: "x" });
      const two = await page.edit(first, twenty, { id: "x" });
      expect(two.json).toEqual(one.json);
      expect(folder.read()).toBe(twenty);
    });
  });
  test("that leaves a file nobody can parse is accepted", async () => {
    await served(async ({ page, folder }) => {
      expect((await page.edit(first, "]: {\n")).status).toBe(200);
      expect(folder.read()).toBe("]: {\n");
    });
  });
  test("can make a file, and undo removes it", async () => {
    await served(async ({ page, folder }) => {
      const wish = { file: "tapes/new-12.yaml", base: null, changes: [[0, "W: 12 mm", ""]], gesture: "n", done: true };
      expect((await page.post("/edit", wish)).json.changes).toMatchObject([{ there: true, version: 1, written: true }]);
      expect(folder.read("tapes/new-12.yaml")).toBe("W: 12 mm\n");
      await page.post("/undo", {});
      expect(folder.read("tapes/new-12.yaml")).toBeUndefined();
      await page.post("/redo", {});
      expect(folder.read("tapes/new-12.yaml")).toBe("W: 12 mm\n");
    });
  });
  test("keeps the mode of its file, and leaves nothing else behind", async () => {
    await served(async ({ page, folder }) => {
      const { chmodSync, readdirSync, statSync } = await import("node:fs");
      chmodSync(folder.file(wren), 0o640);
      await page.edit(first, twenty);
      expect(statSync(folder.file(wren)).mode & 0o777).toBe(0o640);
      expect(readdirSync(folder.file("units"))).toEqual(["wren.yaml"]);
    });
  });
  test.each([
    ["without a file", { file: undefined }, '"file" is a path such as "units/plover.yaml".'],
    ["without a base", { base: undefined }, '"base" is the hash of the text that was changed, or null for a new file.'],
    ["without a gesture", { gesture: "" }, '"gesture" is a name of up to 200 characters.'],
    ["without an end of its gesture", { done: "yes" }, '"done" is true or false.'],
    ["with a number for an id", { id: 5 }, '"id" is a name of up to 200 characters.'],
    ["without changes", { changes: undefined }, "units/wren.yaml: the changes are not a list."],
    ["of a file outside", { file: "../../evil.yaml" }, '"../../evil.yaml" is no file of a project.'],
    ["of the journal", { file: ".tapeworthy/journal" }, '".tapeworthy/journal" is no file of a project.'],
    ["of another kind of file", { file: "units/wren.txt" }, '"units/wren.txt" is no file of a project.'],
  ])("%s is refused, and nothing changes", async (_, wrong, words) => {
    await served(async ({ page, folder }) => {
      const before = folder.contents();
      const wish = { file: wren, base: sha256(first), changes: [first.length], gesture: "g", done: true, ...wrong };
      const { status, json } = await page.post("/edit", wish);
      expect([status, json.code, json.words]).toEqual([400, "malformed", words]);
      expect(folder.contents()).toEqual(before);
    });
  });
});

describe("undo", () => {
  test("takes a gesture back in the file, redo does it again, and what there is not is said", async () => {
    await served(async ({ page, folder }) => {
      await page.edit(first, first.replace("two: 2", "two: 3"), { done: false });
      await page.edit(first.replace("two: 2", "two: 3"), twenty);
      const undone = await page.post("/undo", {});
      expect([undone.status, undone.json.history]).toEqual([200, { undo: 0, redo: 1 }]);
      expect(undone.json.changes).toMatchObject([{ file: wren, by: "undo", gesture: "g", version: 4, written: true }]);
      expect(folder.read()).toBe(first);
      await page.post("/redo", {});
      expect(folder.read()).toBe(twenty);
      const none = await page.post("/redo", {});
      expect([none.status, none.json]).toEqual([409, { code: "nothing", words: "There is nothing to redo." }]);
    });
  });
  test("in the middle of a gesture ends it and writes", async () => {
    await served(async ({ page, folder, server }) => {
      await page.edit(first, twenty, { done: false });
      await page.post("/undo", {});
      await page.edit(first, first.replace("four: 4", "four: 5"), { gesture: "h" });
      server.look();
      expect(folder.read()).toBe(first.replace("four: 4", "four: 5"));
    });
  });
  test("of a line changed from outside is refused with both texts, and can be left out", async () => {
    await served(async ({ page, folder }) => {
      await page.edit(first, first.replace("four: 4", "four: 5"), { gesture: "a" });
      await page.edit(first.replace("four: 4", "four: 5"), twenty.replace("four: 4", "four: 5"), { gesture: "b" });
      const theirs = first.replace("four: 4", "four: 5").replace("two: 2", "two: 21");
      folder.write(wren, theirs);
      await until(async () => expect(await page.text()).toBe(theirs));
      const { status, json } = await page.post("/undo", {});
      expect([status, json]).toEqual([
        409,
        {
          code: "conflict",
          words: "units/wren.yaml has been changed in line 2 from outside since, so this cannot be undone.",
          file: wren,
          gesture: "b",
          yours: first.replace("four: 4", "four: 5"),
          theirs: { text: theirs, version: 4, hash: sha256(theirs) },
        },
      ]);
      expect(folder.read()).toBe(theirs);
      expect((await page.post("/undo", { skip: "b" })).json).toEqual({ changes: [], history: { undo: 1, redo: 0 } });
      await page.post("/undo", {});
      expect(folder.read()).toBe(first.replace("two: 2", "two: 21"));
    });
  });
});

test("two pages see each other's edits as events, in one order, and neither loses any", async () => {
  await served(async ({ page, server, folder }) => {
    const other = await Visitor.by(server.newAddress());
    const [a, b] = await Promise.all([page.listen(), other.listen()]);
    await Promise.all([
      page.edit(first, first.replace("one: 1", "one: 10"), { gesture: "p", id: "p1" }),
      other.edit(first, first.replace("four: 4", "four: 40"), { gesture: "o", id: "o1" }),
    ]);
    const both = first.replace("one: 1", "one: 10").replace("four: 4", "four: 40");
    expect(folder.read()).toBe(both);
    await until(() => expect(a.of("change")).toHaveLength(2));
    await until(() => expect(b.heard).toEqual(a.heard));
    expect(a.of("change").map(({ data }) => [data.version, data.by, data.there])).toEqual([
      [2, "edit", true],
      [3, "edit", true],
    ]);
    expect(a.of("change")[1]!.data.hash).toBe(sha256(both));
    expect(a.of("written").map(({ data }) => data.file)).toEqual([wren, wren]);
  });
});

describe("a folder without a project", () => {
  test("takes an example whole, as one step that undo takes back whole", async () => {
    await served(
      async ({ page, folder }) => {
        const before = await page.state();
        // What stands beside its texts stays where it is.
        const design = Object.fromEntries([...exampleTexts("saltgrass")].filter(([path]) => isProjectPath(path)));
        const raw = exampleRaw("saltgrass");
        const texts = () =>
          Object.fromEntries(Object.entries(folder.contents()).filter(([path]) => !path.endsWith(".parquet")));
        expect([before.files, before.examples]).toEqual([[], ["saltgrass"]]);
        const { status, json } = await page.post("/begin", { from: "saltgrass" });
        expect([status, json.history]).toEqual([200, { undo: 1, redo: 0 }]);
        expect(texts()).toEqual(design);
        // The rows of its logs are no texts: they come with it, byte for byte, and undo leaves them.
        const rows = Object.keys(folder.contents()).filter((path) => path.endsWith(".parquet"));
        expect(rows).toEqual([...raw.keys()]);
        for (const path of rows) expect(readFileSync(folder.file(path)).equals(raw.get(path)!), path).toBe(true);
        expect((await page.post("/undo", {})).json.history).toEqual({ undo: 0, redo: 1 });
        expect(texts()).toEqual({});
        await page.post("/redo", {});
        expect(texts()).toEqual(design);
      },
      { files: {} },
    );
  });
  test.each([
    ["a project", { "project.yaml": "format: 1\n" }, "saltgrass", 409, "There is a project in this folder already."],
    [
      "one of its files",
      { "units/plover.yaml": "a: 1\n" },
      "saltgrass",
      409,
      "There is a file units/plover.yaml already; nothing was written.",
    ],
    ["nothing, and an example that is not there", {}, "../secret", 400, '"from" is an example: saltgrass.'],
  ])("with %s in it stays as it is", async (_, files, from, wanted, words) => {
    await served(
      async ({ page, folder }) => {
        const { status, json } = await page.post("/begin", { from });
        expect([status, json.words]).toEqual([wanted, words]);
        expect(folder.contents()).toEqual(files);
      },
      { files },
    );
  });
});
